// SPDX-License-Identifier: GPL-3.0-or-later
#include "survey/survey.h"

#include <algorithm>

namespace ww::survey {

namespace {

/// What one answer means.
struct Meaning {
  std::string_view question, answer, word;
};

// Common practice, no source: what a control stage of line voltage looks like, and what a phasor cannot say.
constexpr Meaning kRefusals[]{{"conductors", "thick", "lineVoltage"},  {"volts", "over30", "lineVoltage"},
                              {"signals", "data", "dataBus"},          {"inverter", "without", "dataBus"},
                              {"signals", "modulating", "modulating"}, {"signals", "notKnown", "unknown"},
                              {"circuits", "unknown", "unknown"}};

constexpr Meaning kNotes[]{
    {"volts", "notRead", "voltsNotRead"},       {"inverter", "interface", "inverterDemand"},
    {"apart", "thermopile", "thermopileApart"}, {"apart", "both", "thermopileApart"},
    {"apart", "dryPair", "dryPairApart"},       {"apart", "both", "dryPairApart"}};

template <size_t N>
std::vector<std::string> wordsOf(const Meaning (&meanings)[N], const Answers& answers) {
  std::vector<std::string> words;
  for (const Meaning& meaning : meanings) {
    const auto given = answers.find(meaning.question);
    if (given == answers.end() || given->second != meaning.answer) continue;
    if (std::find(words.begin(), words.end(), meaning.word) == words.end()) words.emplace_back(meaning.word);
  }
  return words;
}

}  // namespace

const std::vector<Question>& questions() {
  static const std::vector<Question> all{{"conductors", {"thin", "thick"}},
                                         {"volts", {"upTo30", "over30", "notRead"}},
                                         {"signals", {"onOff", "data", "modulating", "notKnown"}},
                                         {"circuits", {"known", "unknown"}},
                                         {"inverter", {"none", "interface", "without"}},
                                         {"apart", {"none", "thermopile", "dryPair", "both"}}};
  return all;
}

Answers customary() {
  return {{"conductors", "thin"}, {"volts", "notRead"}, {"signals", "onOff"},
          {"circuits", "known"},  {"inverter", "none"}, {"apart", "none"}};
}

Answers refusedWith(std::string_view refusal) {
  Answers answers = customary();
  for (const Meaning& meaning : kRefusals)
    if (meaning.word == refusal) {
      answers[std::string(meaning.question)] = meaning.answer;
      break;
    }
  return answers;
}

const std::vector<std::string_view>& refusals() {
  static const std::vector<std::string_view> all{"lineVoltage", "dataBus", "modulating", "unknown"};
  return all;
}

bool complete(const Answers& answers) {
  const auto& all = questions();
  return answers.size() == all.size() && std::all_of(all.begin(), all.end(), [&](const Question& question) {
           const auto given = answers.find(question.id);
           return given != answers.end() && std::find(question.answers.begin(), question.answers.end(),
                                                      given->second) != question.answers.end();
         });
}

Verdict verdictOf(const Answers& answers) { return {wordsOf(kRefusals, answers), wordsOf(kNotes, answers)}; }

}  // namespace ww::survey
