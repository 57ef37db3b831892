// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/schema.h"

#include <exception>
#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include "equipment/shipped.h"
#include "quantity/json.h"

namespace ww::equipment {

namespace {

using nlohmann::json;
using quantity::Problems;

/// std::regex, which the library matches patterns with, recurses once per character.
void requireShortTexts(const json& value, const std::string& where, Problems& problems) {
  if (value.is_string()) quantity::textOf(value, where, problems);
  if (!value.is_structured()) return;
  for (const auto& item : value.items()) {
    quantity::textOf(item.key(), where, problems);
    requireShortTexts(item.value(), quantity::pointerTo(where, item.key()), problems);
  }
}

/// The library gives the way as "<root>", then "[member]" or "[3]" for each step.
std::string pointerOf(const std::vector<std::string>& way) {
  std::string pointer;
  for (const std::string& step : way)
    if (step.size() >= 2 && step.front() == '[')
      pointer = quantity::pointerTo(pointer, std::string_view(step).substr(1, step.size() - 2));
  return pointer;
}

/// "sheet.schema.json", as one schema refers to another beside it. The library keeps definitions of all files
/// in one cache by their pointers, so two files may share a definition's name only when it says the same.
const json* referredSchema(const std::string& file) {
  constexpr std::string_view kEnding = ".json";
  std::string_view name = file;
  if (!name.ends_with(kEnding)) return nullptr;
  name.remove_suffix(kEnding.size());
  auto schema = quantity::parseJson(textOf(shippedSchemas(), name));
  return schema ? new json(std::move(*schema.value)) : nullptr;
}

Problems validate(const json& value, const json& schemaText) {
  valijson::Schema schema;
  valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
  const valijson::adapters::NlohmannJsonAdapter schemaAdapter(schemaText);
  parser.populateSchema<valijson::adapters::NlohmannJsonAdapter>(schemaAdapter, schema, referredSchema,
                                                                 [](const json* fetched) { delete fetched; });
  valijson::Validator validator(valijson::Validator::kStrongTypes);
  valijson::ValidationResults results;
  const valijson::adapters::NlohmannJsonAdapter target(value);
  Problems problems;
  if (validator.validate(schema, target, &results)) return problems;
  for (const auto& error : results)
    problems.push_back({pointerOf(error.context), "schema", {{"reason", error.description}}});
  return problems;
}

}  // namespace

Problems schemaProblems(std::string_view text, std::string_view schema) {
  const auto schemaText = quantity::parseJson(textOf(shippedSchemas(), schema));
  if (!schemaText) return {{"", "schema-unknown", {{"schema", quantity::cited(schema)}}}};
  const auto value = quantity::parseJson(text);
  if (!value) return value.problems;
  Problems problems;
  requireShortTexts(*value.value, "", problems);
  if (!problems.empty()) return problems;
  try {
    return validate(*value.value, *schemaText.value);
  } catch (const std::exception& error) {  // the library's way of saying that the schema itself is unsound
    problems.push_back(
        {"", "schema-unknown", {{"schema", quantity::cited(schema)}, {"reason", error.what()}}});
    return problems;
  }
}

}  // namespace ww::equipment
