// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>
#include <random>
#include <string>
#include <vector>

namespace ww::testing {

inline void collectPointers(const nlohmann::json& value, const nlohmann::json::json_pointer& at,
                            std::vector<nlohmann::json::json_pointer>& pointers) {
  pointers.push_back(at);
  if (value.is_object())
    for (auto item = value.begin(); item != value.end(); ++item)
      collectPointers(item.value(), at / item.key(), pointers);
  if (value.is_array())
    for (size_t i = 0; i < value.size(); ++i) collectPointers(value[i], at / i, pointers);
}

/// Changes one random place of a document: another value, another type, a member lost, one too many, a list
/// entry doubled. Whole numbers stay whole: a schema validator may take 2.0 for no whole number.
inline void changeAtRandom(nlohmann::json& document, std::mt19937& random) {
  using nlohmann::json;
  std::vector<json::json_pointer> pointers;
  collectPointers(document, json::json_pointer(), pointers);
  const auto at = pointers[random() % pointers.size()];
  json& value = document[at];
  const auto other = [&]() -> json {
    switch (random() % 12) {
      case 0: return nullptr;
      case 1: return true;
      case 2: return -1;
      case 3: return 0;
      case 4: return 1;
      case 5: return 2.5;
      case 6: return 1e300;
      case 7: return "";
      case 8: return "x y/z";
      case 9: return "RD";
      case 10: return json::array();
      default: return json::object();
    }
  };
  switch (random() % 4) {
    case 0:
      if (value.is_object() && !value.empty()) {
        auto item = value.begin();
        std::advance(item, random() % value.size());
        value.erase(item);
        return;
      }
      break;
    case 1:
      if (value.is_object()) {
        value["stray"] = other();
        return;
      }
      break;
    case 2:
      if (value.is_array() && !value.empty()) {
        value.push_back(value[random() % value.size()]);
        return;
      }
      break;
    default: break;
  }
  value = other();
}

}  // namespace ww::testing
