// SPDX-License-Identifier: GPL-3.0-or-later
// The inner circuit of every unit: everything drawn, nothing upon another, and joined as the profile says.
#include "drawing/inner.h"

#include <gmock/gmock.h>

#include <cmath>
#include <map>
#include <numeric>
#include <random>
#include <set>

#include "support/font_advances.h"

namespace ww::drawing {
namespace {

using equipment::Profile;
using ::testing::IsEmpty;

Inner drawn(const Profile& profile) {
  return layoutInner(profile, testing::tableMeasure,
                     [](const equipment::Element& element) { return element.partName + " 12.0 VA"; });
}

class EveryUnit : public ::testing::TestWithParam<std::string> {
 protected:
  const Profile& profile() const { return *equipment::standardLibrary().find(GetParam()); }
};

TEST_P(EveryUnit, hasEveryElementAndTerminalOnce) {
  const Inner inner = drawn(profile());
  ASSERT_EQ(inner.elements.size(), profile().elements.size());
  for (size_t i = 0; i < inner.elements.size(); ++i) {
    EXPECT_EQ(inner.elements[i].id, profile().elements[i].id);
    EXPECT_GT(inner.elements[i].box.w, 0) << inner.elements[i].id;
    EXPECT_EQ(inner.elements[i].name.text, profile().elements[i].id);
  }
  ASSERT_EQ(inner.terminals.size(), profile().terminals.size());
  for (size_t i = 0; i < inner.terminals.size(); ++i) {
    EXPECT_EQ(inner.terminals[i].label.text, profile().terminals[i].id);
    EXPECT_LE(inner.terminals[i].label.box.w, inner.terminals[i].square.w) << "letters in their square";
  }
}

std::vector<std::pair<std::string, Box>> boxesOf(const Inner& inner) {
  std::vector<std::pair<std::string, Box>> boxes;
  for (const auto& element : inner.elements) {
    boxes.emplace_back(element.id, element.box);
    boxes.emplace_back(element.id + " name", element.name.box);
    boxes.emplace_back(element.id + " rating", element.rating.box);
  }
  for (const auto& terminal : inner.terminals) boxes.emplace_back(terminal.id, terminal.square);
  return boxes;
}

Box boxOf(const InnerWire& wire) {
  return {std::min(wire.from.x, wire.to.x), std::min(wire.from.y, wire.to.y),
          std::abs(wire.from.x - wire.to.x), std::abs(wire.from.y - wire.to.y)};
}

TEST_P(EveryUnit, hasNothingUponAnother) {
  const Inner inner = drawn(profile());
  const auto boxes = boxesOf(inner);
  for (size_t i = 0; i < boxes.size(); ++i) {
    EXPECT_EQ(united(inner.bounds, boxes[i].second), inner.bounds) << boxes[i].first;
    for (size_t j = i + 1; j < boxes.size(); ++j)
      EXPECT_FALSE(overlap(boxes[i].second, boxes[j].second)) << boxes[i].first << ", " << boxes[j].first;
    for (const InnerWire& wire : inner.wires)
      EXPECT_FALSE(overlap(boxes[i].second, boxOf(wire).grown(0.5)) &&
                   overlap(boxes[i].second.grown(-0.6), boxOf(wire).grown(0.5)))
          << boxes[i].first << ", wire " << wire.node;
  }
}

bool on(const InnerWire& wire, const Point& at) {
  const Box box = boxOf(wire);
  return at.x >= box.x - 1e-6 && at.x <= box.right() + 1e-6 && at.y >= box.y - 1e-6 &&
         at.y <= box.bottom() + 1e-6;
}

/// Pieces that touch with an end are joined; two that only cross are not.
class Joined {
 public:
  explicit Joined(const std::vector<InnerWire>& wires) : parent_(wires.size()), wires_(wires) {
    std::iota(parent_.begin(), parent_.end(), 0);
    for (size_t i = 0; i < wires.size(); ++i)
      for (size_t j = 0; j < wires.size(); ++j)
        for (const Point& end : {wires[i].from, wires[i].to})
          if (on(wires[j], end)) parent_[size_t(find(int(i)))] = find(int(j));
  }
  /// The net at a point where something is connected; -1 without any.
  int at(const Point& point) {
    for (size_t i = 0; i < wires_.size(); ++i)
      if (wires_[i].from == point || wires_[i].to == point) return find(int(i));
    return -1;
  }

 private:
  int find(int i) {
    while (parent_[size_t(i)] != i) i = parent_[size_t(i)];
    return i;
  }
  std::vector<int> parent_;
  const std::vector<InnerWire>& wires_;
};

TEST_P(EveryUnit, isJoinedAsTheProfileSays) {
  const Inner inner = drawn(profile());
  Joined joined(inner.wires);
  std::map<std::string, std::string> metal;
  for (const auto& group : profile().joined)
    for (const std::string& id : group) metal[id] = group.front();
  std::map<std::string, std::set<int>> netsOf;
  std::map<int, std::set<std::string>> nodesOf;
  const auto place = [&](const std::string& node, const Point& point) {
    const auto same = metal.find(node);
    const std::string name = same == metal.end() ? node : same->second;
    const int net = joined.at(point);
    EXPECT_GE(net, 0) << node;
    netsOf[name].insert(net);
    nodesOf[net].insert(name);
  };
  for (size_t i = 0; i < inner.elements.size(); ++i) {
    place(profile().elements[i].a, inner.elements[i].from);
    place(profile().elements[i].b, inner.elements[i].to);
  }
  for (const InnerTerminal& terminal : inner.terminals) {
    const double y = terminal.square.centre().y;
    const Point left{terminal.square.x, y}, right{terminal.square.right(), y};
    place(terminal.id, joined.at(right) >= 0 ? right : left);
  }
  for (const auto& [node, nets] : netsOf) EXPECT_EQ(nets.size(), 1u) << node << " in pieces";
  for (const auto& [net, nodes] : nodesOf) EXPECT_EQ(nodes.size(), 1u) << *nodes.begin() << " and others";
}

TEST_P(EveryUnit, isTheSameTwice) { EXPECT_EQ(drawn(profile()), drawn(profile())); }

std::vector<std::string> shipped() {
  std::vector<std::string> ids;
  for (const auto& [id, profile] : equipment::standardLibrary().profiles) ids.push_back(id);
  return ids;
}

INSTANTIATE_TEST_SUITE_P(Shipped, EveryUnit, ::testing::ValuesIn(shipped()), [](const auto& id) {
  std::string name = id.param;
  for (char& c : name)
    if (c == '-') c = '_';
  return name;
});

Symbol symbolIn(const char* unit, const char* element) {
  const Profile& profile = *equipment::standardLibrary().find(unit);
  return symbolOf(profile, *profile.element(element));
}

TEST(InnerSymbols, followThePartAndTheStateAtRest) {
  EXPECT_EQ(symbolIn("furnace-1", "XF"), Symbol::transformer);
  EXPECT_EQ(symbolIn("furnace-1", "F"), Symbol::fuse);
  EXPECT_EQ(symbolIn("furnace-1", "GV"), Symbol::coil);
  EXPECT_EQ(symbolIn("furnace-1", "W"), Symbol::input);
  EXPECT_EQ(symbolIn("furnace-1", "B"), Symbol::supply);
  EXPECT_EQ(symbolIn("furnace-1", "LIM"), Symbol::breakContact) << "a limit is closed at rest";
  EXPECT_EQ(symbolIn("furnace-1", "DS"), Symbol::makeContact) << "a draft switch closes with the draft";
  EXPECT_EQ(symbolIn("furnace-1", "KV"), Symbol::makeContact);
  EXPECT_EQ(symbolIn("boiler-tt", "KR2"), Symbol::makeContact);
  EXPECT_EQ(symbolIn("boiler-tt", "WT"), Symbol::breakContact);
}

/// Names that stand twice in each of many statements.
TEST(InnerSymbols, takeNoLongerThanTheProfileIsLong) {
  Profile profile = *equipment::standardLibrary().find("od-cool-1");
  quantity::Problems problems;
  equipment::parseStatement("s0 := line", "", profile.logic, problems);
  for (int i = 1; i < 60; ++i) {
    const std::string before = "s" + std::to_string(i - 1);
    equipment::parseStatement("s" + std::to_string(i) + " := " + before + " & " + before, "", profile.logic,
                              problems);
  }
  ASSERT_TRUE(problems.empty());
  equipment::Element contact = profile.elements.front();
  contact.part = equipment::ContactPart{};
  contact.id = "s59";
  contact.closedBy = -1;
  EXPECT_EQ(symbolOf(profile, contact), Symbol::breakContact);
}

TEST(InnerDrawing, commonsStandRightAndSourcesLeft) {
  const Profile& profile = *equipment::standardLibrary().find("furnace-1");
  const Inner inner = drawn(profile);
  std::map<std::string, Box> at;
  for (const auto& terminal : inner.terminals) at[terminal.id] = terminal.square;
  EXPECT_LT(at["R"].x, at["C"].x);
  EXPECT_LT(at["W"].x, at["C"].x);
  EXPECT_EQ(at["HUM"].x, at["C"].x) << "what leaves the unit stands right";
  for (size_t i = 0; i < inner.elements.size(); ++i)
    if (profile.elements[i].a == "R" && profile.elements[i].b == "C") {
      EXPECT_LT(inner.elements[i].from.x, inner.elements[i].to.x);
    }
}

/// A profile of one's own may be anything that is sound: many random ones are drawn without overlap too.
TEST(InnerDrawing, anyCircuitIsDrawnWhole) {
  std::mt19937 random(11);
  for (int round = 0; round < 200; ++round) {
    Profile profile;
    const int nodes = 2 + int(random() % 9), elements = 1 + int(random() % 14);
    for (int i = 0; i < nodes / 2 + 1; ++i) {
      equipment::Terminal terminal;
      terminal.id = "n" + std::to_string(i);
      terminal.role = static_cast<equipment::Role>(random() % 10);
      profile.terminals.push_back(terminal);
    }
    for (int i = 0; i < elements; ++i) {
      equipment::Element element;
      element.id = "E" + std::to_string(i);
      element.a = "n" + std::to_string(random() % unsigned(nodes));
      element.b = "n" + std::to_string(random() % unsigned(nodes));
      element.part = equipment::ResistorPart{};
      if (random() % 4 == 0) element.part = equipment::TransformerPart{};
      profile.elements.push_back(element);
    }
    const Inner inner = drawn(profile);
    const auto boxes = boxesOf(inner);
    for (size_t i = 0; i < boxes.size(); ++i)
      for (size_t j = i + 1; j < boxes.size(); ++j)
        ASSERT_FALSE(overlap(boxes[i].second, boxes[j].second)) << round << " " << boxes[i].first;
    for (const auto& element : inner.elements) ASSERT_GT(element.box.w, 0) << round;
    for (const auto& terminal : inner.terminals) ASSERT_GT(terminal.square.w, 0) << round;
  }
}

}  // namespace
}  // namespace ww::drawing
