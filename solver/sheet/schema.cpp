// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "sheet/declaration.hpp"
#include "sheet/nested.hpp"
#include "sheet/wording.hpp"

namespace ampstair::sheet {

namespace {

using json = nlohmann::ordered_json;

json plain_number(Dimension dimension) {
  const bool bare = dimension == Dimension::ratio || dimension == Dimension::count;
  return bare ? json{{"type", {"number", "string"}}} : json{{"type", "string"}};
}

/// A number: text with its unit, or a band of them.
json number(Dimension dimension) {
  const json plain = plain_number(dimension);
  const json text{{"type", "string"}};
  const json band{{"type", "object"},
                  {"properties",
                   {{"best", plain},
                    {"low", plain},
                    {"high", plain},
                    {"from", text},
                    {"shape", {{"enum", {"uniform", "normal"}}}}}},
                  {"required", {"best"}},
                  {"dependentRequired", {{"low", {"high"}}, {"high", {"low"}}}},
                  {"additionalProperties", false}};
  return {{"anyOf", {plain, band}}};
}

json table(Dimension dimension) {
  const json point{
      {"type", "object"},
      {"properties", {{"at", number(Dimension::temperature)}, {"value", number(dimension)}}},
      {"required", {"at", "value"}},
      {"additionalProperties", false}};
  json either = number(dimension);
  either["anyOf"].push_back({{"type", "array"}, {"items", point}, {"minItems", 1}});
  return either;
}

class Writer {
 public:
  json sheet(const Declaration& keys) {
    json schema = object(keys, {}, {});
    json result{{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", keys.name}};
    result.update(schema);
    json definitions = json::object();
    for (auto& [name, declaration, body] : definitions_) {
      definitions[name] = std::move(body);
    }
    if (!definitions.empty()) {
      result["$defs"] = std::move(definitions);
    }
    return result;
  }

 private:
  struct Definition {
    std::string name;
    DeclarationPtr keys;
    json body;
  };

  /// @param discriminator key that carries `word`; empty: none
  json object(const Declaration& keys, const std::string& discriminator, const std::string& word) {
    json properties = json::object();
    json needed = json::array();
    if (!discriminator.empty()) {
      properties[discriminator] = {{"const", word}, {"description", keys.help}};
      needed.push_back(discriminator);
    }
    for (const Key& key : keys.keys) {
      json described{{"description", description(key)}};
      described.update(std::visit([&](const auto& form) { return value(form); }, key.form));
      properties[key.name] = std::move(described);
      if (key.need.kind == Need::Kind::required) {
        needed.push_back(key.name);
      }
    }
    json result{{"type", "object"},
                {"description", keys.help},
                {"properties", std::move(properties)},
                {"additionalProperties", false}};
    if (!needed.empty()) {
      result["required"] = std::move(needed);
    }
    return result;
  }

  static std::string description(const Key& key) {
    return fmt::format("{} [{}; {}]", key.help, describe_form(key.form), describe_need(key));
  }

  json reference(const DeclarationPtr& keys) {
    for (const auto& known : definitions_) {
      if (same_keys(*known.keys, *keys)) {
        return {{"$ref", "#/$defs/" + known.name}};
      }
    }
    std::string name = keys->name;
    for (char& c : name) {
      const bool word = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
      c = word ? c : '-';
    }
    name += taken(name) ? fmt::format("-{}", definitions_.size() + 1) : "";
    definitions_.push_back({name, keys, nullptr});
    const auto index = definitions_.size() - 1;
    json body = object(*keys, {}, {});
    definitions_[index].body = std::move(body);
    return {{"$ref", "#/$defs/" + name}};
  }

  [[nodiscard]] bool taken(const std::string& name) const {
    for (const auto& known : definitions_) {
      if (known.name == name) {
        return true;
      }
    }
    return false;
  }

  static json list(json items, bool required = false) {
    json result{{"type", "array"}, {"items", std::move(items)}};
    if (required) {
      result["minItems"] = 1;
    }
    return result;
  }

  json value(const NumberForm& form) { return number(form.dimension); }
  json value(const TextForm& form) {
    if (form.options.empty()) {
      return {{"type", {"string", "number"}}};  // a name may look like a number
    }
    json words = json::array();
    for (const auto& option : form.options) {
      words.push_back(option.word);
    }
    return {{"enum", std::move(words)}};
  }
  json value(const TruthForm& form) {
    return {{"type", "boolean"}, {"default", form.default_value}};
  }
  json value(const TableForm& form) { return table(form.dimension); }
  json value(const TextsForm& /*form*/) { return list({{"type", {"string", "number"}}}); }
  json value(const NodesForm& /*form*/) { return list({{"type", "object"}}); }
  json value(const MappingForm& form) { return reference(form.keys); }
  json value(const TextOrMappingForm& form) {
    return {{"anyOf", {json{{"type", "string"}}, reference(form.mapping.keys)}}};
  }
  json value(const ListForm& form) {
    const json item = reference(form.keys);
    if (form.keys->alone.empty()) {
      return list(item);
    }
    const json text{{"type", "string"}};
    return {{"anyOf", {list({{"anyOf", {item, text}}}), item, text}}};
  }
  json value(const AlternativesForm& form) {
    json choices = json::array();
    for (const auto& choice : form.choices->choices) {
      choices.push_back(object(*choice.keys, form.choices->discriminator, choice.word));
    }
    return list({{"oneOf", std::move(choices)}});
  }

  std::vector<Definition> definitions_;
};

}  // namespace

std::string write_schema(const Declaration& keys) {
  return Writer().sheet(keys).dump(2);
}

}  // namespace ampstair::sheet
