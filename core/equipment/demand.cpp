// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/demand.h"

#include <algorithm>

namespace ww::equipment {

bool takesDemand(const Profile& profile) {
  return profile.kind == Kind::outdoorUnit && profile.offers("compressor1") &&
         std::none_of(profile.elements.begin(), profile.elements.end(),
                      [](const Element& element) { return std::holds_alternative<CoilPart>(element.part); });
}

}  // namespace ww::equipment
