// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

#include "quantity/loaded.h"

namespace ww::equipment {

/// Checks JSON text against a JSON Schema (draft 7) that ships with the program ("profile.schema",
/// "sheet.schema", "job.schema"; one may refer to another by its file name). For
/// documentation and cross-checks: readers decide by themselves. Problems: those of quantity::parseJson,
/// "text-too-long" (patterns are matched on short texts only), "schema-unknown" {schema}, and "schema"
/// {reason} at the pointer of each offending value.
quantity::Problems schemaProblems(std::string_view text, std::string_view schema);

}  // namespace ww::equipment
