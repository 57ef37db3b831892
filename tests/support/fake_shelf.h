// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>

#include "jobs/shelf.h"

namespace ww::testing {

/// A shelf of made-up rows that answers at once, or when told to.
class FakeShelf : public jobs::Shelf {
 public:
  explicit FakeShelf(size_t count) {
    for (size_t i = 0; i < count; ++i) {
      jobs::Entry entry;
      entry.id = "id-" + std::to_string(i);
      entry.address = QStringLiteral("%1 North Oak Avenue, Unit %2").arg(i + 1).arg(i % 40);
      entry.beneath = QStringLiteral("Larkmoor Terrace · M. Ode");
      entry.visit = QStringLiteral("12 Mar 2025");
      entry.system = QStringLiteral("G heat pump");
      entry.state = i % 3 ? QStringLiteral("closed") : QStringLiteral("2 open");
      entry.mark = i % 3 ? paint::Severity::right : paint::Severity::fail;
      all.push_back(entry);
    }
  }

  void search(const QString& query, size_t from, size_t count) override {
    queries << query;
    jobs::Answer answer;
    answer.query = query;
    answer.from = from;
    answer.all = all.size();
    size_t seen = 0;
    for (const jobs::Entry& entry : all) {
      if (!query.isEmpty() && !entry.address.contains(query, Qt::CaseInsensitive)) continue;
      if (seen >= from && answer.entries.size() < count) answer.entries.push_back(entry);
      ++seen;
    }
    answer.matching = seen;
    Q_EMIT found(answer);
  }

  void preview(const std::string& id) override {
    previews.push_back(id);
    jobs::Preview made;
    made.id = id;
    made.title = QStringLiteral("14 North Oak Avenue, Unit 4");
    made.beneath = QStringLiteral("Larkmoor Terrace · 555-0142 · heat pump with electric auxiliary heat");
    made.visits = {{QStringLiteral("14 Sep 2023"), QStringLiteral("closed"), false},
                   {QStringLiteral("22 May 2024"), QStringLiteral("closed"), false},
                   {QStringLiteral("12 Mar 2025"), QStringLiteral("draft"), true}};
    jobs::Drift drift;
    drift.title = QStringLiteral("R TO C AT THE AIR HANDLER");
    drift.values = {27.3, 27.2, 25.8};
    drift.worded = {QStringLiteral("27.3 V"), QStringLiteral("27.2 V"), QStringLiteral("25.8 V")};
    drift.low = 26.2;
    drift.high = 28.2;
    drift.bandText = QStringLiteral("26.2 to 28.2 V");
    drift.verdict = QStringLiteral("outside");
    drift.outside = true;
    made.drift = drift;
    made.changes = {QStringLiteral("OG of cable 2: O at the outdoor unit, now loose")};
    made.findings = {{paint::Severity::fail, QStringLiteral("Reversing valve not energised on Cool 1")},
                     {paint::Severity::warn, QStringLiteral("Contactor late at low line")}};
    made.binned = id == binned;
    Q_EMIT previewed(made);
  }

  std::vector<jobs::Choice> dates() const override {
    return {{QStringLiteral("year:2025"), QStringLiteral("2025")}};
  }
  std::vector<jobs::Choice> states() const override {
    return {{QStringLiteral("state:draft"), QStringLiteral("draft")},
            {QStringLiteral("state:closed"), QStringLiteral("closed")}};
  }
  std::vector<jobs::Choice> systems() const override { return {}; }
  std::vector<jobs::Choice> installers() const override { return {}; }

  std::vector<jobs::Entry> all;
  QStringList queries;
  std::vector<std::string> previews;
  std::string binned;
};

}  // namespace ww::testing
