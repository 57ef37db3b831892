// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "equipment/own_profiles.h"
#include "job/dates.h"
#include "job/identity.h"
#include "job/job_fields.h"
#include "job/job_json.h"
#include "job/meter_json.h"
#include "quantity/canonical.h"
#include "quantity/text.h"
#include "sheet/sheet_json.h"

namespace ww::job {

namespace {

using nlohmann::json;
using quantity::Fields;
using quantity::JsonItem;

constexpr size_t kMostFacts = 20'000, kMostProfiles = 200;

/// A text that must be one of these words, the first of which stands in after a complaint.
std::string oneOf(Fields& f, const char* member, std::initializer_list<std::string_view> words) {
  Fields::Words<std::string_view> pairs;
  for (const std::string_view word : words) pairs.emplace_back(word, word);
  return std::string(f.word(member, pairs));
}

class Reader {
 public:
  Reader(const json& value, const equipment::Library& library)
      : fields_(value, "", problems_), library_(library) {}

  quantity::Loaded<Job> read() {
    fields_.has("format");
    fields_.has("version");
    head();
    site();
    profiles();
    sheets();
    if (const json* value = fields_.value("control", false))
      job_.control = recommend::readControl(*value, fields_.whereOf("control"), problems_);
    each("surveys", [&](Fields& f) { job_.surveys.push_back(survey(f)); });
    each("meters", [&](Fields& f) { job_.meters.push_back(meter(f)); });
    each("readings", [&](Fields& f) { job_.readings.push_back(reading(f)); });
    each("acknowledgements", [&](Fields& f) {
      job_.acknowledgements.push_back(
          {id(f), oneOf(f, "cautions", {"dead", "live"}), f.text("by"), moment(f, "at")});
    });
    each("acceptances", [&](Fields& f) {
      job_.acceptances.push_back({id(f), f.text("finding"), oneOf(f, "severity", {"note", "warn"}),
                                  f.text("note"), f.text("by"), moment(f, "at")});
    });
    each("signatures", [&](Fields& f) {
      job_.signatures.push_back({id(f), oneOf(f, "role", {"installer", "owner"}), f.text("name"),
                                 moment(f, "at"), oneOf(f, "form", {"drawn", "on paper"})});
    });
    each("openItems", [&](Fields& f) {
      job_.openItems.push_back({id(f), f.text("text"), f.textOr("owner", ""), date(f, "due", false)});
    });
    fields_.finish();
    if (!problems_.empty()) return quantity::Loaded<Job>::failed(std::move(problems_));
    return quantity::Loaded<Job>::ok(std::move(job_));
  }

 private:
  void head() {
    job_.id = id(fields_);
    job_.number = fields_.text("number", 40);
    job_.state = fields_.word("state", kStateWords);
    if (fields_.has("stage"))
      job_.stage =
          oneOf(fields_, "stage", {"", "site", "wiring", "dead", "live", "settings", "run", "report"});
    job_.visit = date(fields_, "visit", true);
    job_.installer = fields_.textOr("installer", "");
    if (const json* value = fields_.value("line", false)) {
      Fields line(*value, fields_.whereOf("line"), problems_);
      job_.lowLine = line.number("low", 0.5, 1);
      job_.highLine = line.number("high", 1, 1.5);
      if (job_.lowLine >= job_.highLine) line.complain("low", "line-order");
      line.finish();
    }
  }

  void site() {
    if (const json* value = fields_.value("company", false)) {
      Fields company(*value, fields_.whereOf("company"), problems_);
      job_.company = {company.textOr("name", ""), company.textOr("phone", "")};
      company.finish();
    }
    if (const json* value = fields_.value("site", true)) {
      Fields site(*value, fields_.whereOf("site"), problems_);
      job_.site = {site.text("address"),        site.textOr("unit", ""),  site.textOr("city", ""),
                   site.textOr("customer", ""), site.textOr("phone", ""), site.textOr("notes", "")};
      site.finish();
    }
  }

  void profiles() {
    for (const JsonItem& item : fields_.membersIfAny("profiles", kMostProfiles)) {
      const std::string text = quantity::canonicalText(item.value);
      auto profile = equipment::readProfile(text, library_.parts);
      for (quantity::Problem& problem : profile.problems) {
        problem.where.insert(0, item.where);
        problems_.push_back(std::move(problem));
      }
      if (!profile) continue;
      if (profile.value->id != item.name)
        problems_.push_back({item.where + "/id", "profile-other-id", {{"id", quantity::cited(item.name)}}});
      equipment::putOwn(library_, std::move(*profile.value), text);
      job_.profiles[item.name] = text;
    }
  }

  void sheets() {
    const json* value = fields_.value("sheets", true);
    if (value == nullptr) return;
    Fields sheets(*value, fields_.whereOf("sheets"), problems_);
    const auto one = [&](const char* name, std::optional<sheet::Sheet>& into) {
      const json* body = sheets.value(name, false);
      if (body == nullptr) return;
      auto loaded = sheet::readSheet(*body, sheets.whereOf(name), library_);
      problems_.insert(problems_.end(), loaded.problems.begin(), loaded.problems.end());
      into = std::move(loaded.value);
    };
    one("asFound", job_.asFound);
    one("planned", job_.planned);
    one("asLeft", job_.asLeft);
    sheets.finish();
  }

  template <class Take>
  void each(const char* member, Take take) {
    for (const JsonItem& item : fields_.listIfAny(member, kMostFacts)) {
      if (quantity::enough(problems_)) return;
      Fields fields(item.value, item.where, problems_);
      take(fields);
      fields.finish();
    }
  }

  SurveyTaken survey(Fields& f) {
    SurveyTaken taken;
    taken.id = id(f);
    taken.answers = answers(f);
    if (f.has("refused")) {
      const auto kept = f.texts("refused", 10);
      if (const auto want = survey::verdictOf(taken.answers).refusals; kept != want)
        f.complain("refused", "survey-refused",
                   {{"found", quantity::cited(quantity::joined(kept))}, {"want", quantity::joined(want)}});
    }
    taken.by = f.text("by");
    taken.at = moment(f, "at");
    return taken;
  }

  survey::Answers answers(Fields& f) {
    const json* value = f.value("answers", true);
    survey::Answers answers;
    if (value == nullptr) return answers;
    Fields given(*value, f.whereOf("answers"), problems_);
    for (const survey::Question& question : survey::questions()) {
      Fields::Words<std::string_view> words;
      for (const std::string_view answer : question.answers) words.emplace_back(answer, answer);
      answers[std::string(question.id)] = given.word(question.id, words);
    }
    given.finish();
    return answers;
  }

  Meter meter(Fields& f) {
    const std::string own = id(f);
    Meter meter = readMeter(f);
    meter.id = own;
    return meter;
  }

  Reading reading(Fields& f) {
    Reading reading;
    reading.id = id(f);
    reading.step = f.text("step");
    reading.supersedes = f.textOr("supersedes", "");
    reading.struckBecause = f.textOr("struckBecause", "");
    reading.skippedBecause = f.textOr("skippedBecause", "");
    replaced(f, reading);
    stepOf_.emplace(reading.id, reading.step);
    reading.entered = f.textOr("entered", "");
    reading.value = f.numberIfAny("value", -kMostReading, kMostReading);
    reading.openLine = f.truthOr("openLine", false);
    if (!reading.skippedBecause.empty() && (reading.value || reading.openLine))
      f.complain("skippedBecause", "skipped-with-value");
    reading.unit = f.textOr("unit", "");
    reading.meter = f.textOr("meter", "");
    const auto known = [&](const Meter& m) { return m.id == reading.meter; };
    if (!reading.meter.empty() && std::none_of(job_.meters.begin(), job_.meters.end(), known))
      f.complain("meter", "meter-not-there", {{"meter", quantity::cited(reading.meter)}});
    reading.by = f.textOr("by", "");
    reading.at = moment(f, "at");
    if (const json* value = f.value("band", false)) reading.band = band(*value, f.whereOf("band"));
    return reading;
  }

  /// What withReading() would refuse.
  void replaced(Fields& f, const Reading& reading) {
    if (reading.supersedes.empty()) {
      if (!reading.struckBecause.empty()) f.complain("struckBecause", "strike-without-reading");
      return;
    }
    const auto earlier = stepOf_.find(reading.supersedes);
    if (earlier == stepOf_.end())
      f.complain("supersedes", "reading-not-there", {{"reading", quantity::cited(reading.supersedes)}});
    else if (earlier->second != reading.step)
      f.complain("supersedes", "reading-of-another-step",
                 {{"reading", reading.supersedes}, {"step", quantity::cited(earlier->second)}});
  }

  checklist::Band band(const json& value, const std::string& where) {
    Fields f(value, where, problems_);
    const double low = f.number("low", 0, kMostReading);
    const checklist::Band band{low, f.number("high", low, kMostReading),
                               f.number("mean", -kMostReading, kMostReading),
                               f.number("sigma", 0, kMostReading), f.truthOr("open", false)};
    f.finish();
    return band;
  }

  /// A text, and whether nothing was wrong with it: one fault is told once.
  template <class Read>
  std::pair<std::string, bool> read(Read text) {
    const size_t before = problems_.size();
    std::string found = text();
    return {std::move(found), problems_.size() == before};
  }

  /// Ids merge across machines, so they are UUIDs, and no two facts of a job share one.
  std::string id(Fields& f) {
    const auto [text, sound] = read([&] { return f.text("id"); });
    if (!sound) return text;
    if (!isUuid(text))
      f.complain("id", "not-a-uuid", {{"found", quantity::cited(text)}});
    else if (!ids_.insert(text).second)
      f.complain("id", "id-doubled", {{"id", text}});
    return text;
  }

  std::string date(Fields& f, const char* member, bool required) {
    const auto [text, sound] = read([&] { return required ? f.text(member) : f.textOr(member, ""); });
    if (sound && (required || !text.empty()) && !isDate(text))
      f.complain(member, "not-a-date", {{"found", quantity::cited(text)}});
    return text;
  }

  std::string moment(Fields& f, const char* member) {
    const auto [text, sound] = read([&] { return f.text(member); });
    if (sound && !isMoment(text)) f.complain(member, "not-a-moment", {{"found", quantity::cited(text)}});
    return text;
  }

  quantity::Problems problems_;
  Fields fields_;
  equipment::Library library_;  ///< with the profiles of the job itself
  std::set<std::string> ids_;
  std::map<std::string, std::string> stepOf_;  ///< of the readings so far
  Job job_;
};

}  // namespace

quantity::Loaded<Job> readJob(std::string_view text, const equipment::Library& library) {
  const auto parsed = quantity::parseJson(text, kMostJobBytes);
  if (!parsed) return quantity::Loaded<Job>::failed(parsed.problems);
  if (auto head = sheet::headProblems(*parsed.value, kJobFormat, kJobVersion); !head.empty())
    return quantity::Loaded<Job>::failed(std::move(head));
  return Reader(*parsed.value, library).read();
}

}  // namespace ww::job
