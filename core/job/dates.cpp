// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/dates.h"

#include <algorithm>
#include <chrono>
#include <initializer_list>

namespace ww::job {

namespace {

bool digitsAt(const std::string& text, std::initializer_list<size_t> places) {
  return std::all_of(places.begin(), places.end(),
                     [&](size_t i) { return text[i] >= '0' && text[i] <= '9'; });
}

/// Two digits below the limit.
bool isTwoDigits(const std::string& text, size_t at, int limit) {
  return text.size() >= at + 2 && digitsAt(text, {at, at + 1}) && std::stoi(text.substr(at, 2)) < limit;
}

}  // namespace

bool isDate(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  if (!digitsAt(text, {0, 1, 2, 3, 5, 6, 8, 9})) return false;
  const auto number = [&](size_t at, size_t digits) { return std::stoi(text.substr(at, digits)); };
  return std::chrono::year_month_day(std::chrono::year(number(0, 4)),
                                     std::chrono::month(static_cast<unsigned>(number(5, 2))),
                                     std::chrono::day(static_cast<unsigned>(number(8, 2))))
      .ok();
}

bool isMoment(const std::string& text) {
  if (text.size() < 17 || !isDate(text.substr(0, 10)) || text[10] != 'T' || text[13] != ':') return false;
  if (!isTwoDigits(text, 11, 24) || !isTwoDigits(text, 14, 60)) return false;
  size_t zone = 16;
  if (text[16] == ':') {
    if (!isTwoDigits(text, 17, 61)) return false;  // RFC 3339 writes a leap second as 60
    zone = 19;
  }
  if (text.substr(zone) == "Z") return true;
  return text.size() == zone + 6 && (text[zone] == '+' || text[zone] == '-') && text[zone + 3] == ':' &&
         isTwoDigits(text, zone + 1, 24) && isTwoDigits(text, zone + 4, 60);
}

}  // namespace ww::job
