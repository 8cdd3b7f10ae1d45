// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "diagnostics/contract.hpp"
#include "quantities/parse.hpp"
#include "sheet/declaration.hpp"
#include "sheet/nearest.hpp"
#include "sheet/read_values.hpp"
#include "sheet/wording.hpp"

namespace ampstair::sheet {

namespace {

using diagnostics::expects;

std::string join_path(const std::string& path, const std::string& key) {
  return path.empty() ? key : path + "." + key;
}

/// " of piece 'south leg'" where the mapping gives a name to itself.
std::string named(const Declaration& keys, const Node& node, const Reading& reading) {
  const bool has_name = std::any_of(keys.keys.begin(), keys.keys.end(),
                                    [](const Key& key) { return key.name == "name"; });
  const Node* name = has_name ? node.find("name") : nullptr;
  std::string called = reading.called;
  if (name != nullptr && name->is_scalar() && !name->spoiled) {
    called = excerpt(name->text);
  }
  if (called.empty()) {
    return {};
  }
  return fmt::format(" of {} '{}'", reading.noun.empty() ? keys.name : reading.noun, called);
}

void check_keys(const Declaration& keys, const Node& node, const std::string& of,
                const Reading& reading) {
  std::vector<std::string> known = reading.besides;
  for (const Key& key : keys.keys) {
    known.push_back(key.name);
  }
  std::string where = "at the top of the sheet";
  if (!of.empty()) {
    where = "in" + of.substr(3);
  } else if (!reading.path.empty()) {
    where = "in " + reading.path;
  }
  tell_unknown_keys(node, known, where, reading.problems);
}

bool is_list(const Node& node, const Key& key, const Subject& subject, const Reading& reading) {
  if (node.kind != Node::Kind::list) {
    tell_wrong_shape(node, subject, "a list", key.name + ": " + example_of(key), reading.problems);
    return false;
  }
  if (node.items.empty() && key.need.kind == Need::Kind::required) {
    reading.problems.error("E126", node.place,
                           fmt::format("{} is an empty list.", subject.quoted()),
                           "write  " + key.name + ": " + example_of(key));
  }
  return true;
}

std::string item_path(const std::string& path, std::size_t i) {
  return fmt::format("{}[{}]", path, i + 1);
}

/// Reads one key's value; one overload a form.
struct ValueReader {
  const Key& key;
  const Node& node;
  const Subject& subject;
  void* object;
  const Reading& reading;

  void operator()(const NumberForm& form) const {
    read_number(node, {form.dimension, form.bounds}, subject, form.member(object),
                reading.problems);
  }
  void operator()(const TextForm& form) const {
    read_text_value(node, form.options, subject, form.member(object), reading.problems);
  }
  void operator()(const TruthForm& form) const {
    read_truth(node, subject, form.member(object), reading.problems);
  }
  void operator()(const TableForm& form) const {
    read_table(node, {form.dimension, form.bounds}, subject, form.member(object), reading.problems);
  }
  void operator()(const TextsForm& form) const {
    read_texts(node, subject, form.member(object), reading.problems);
  }
  void operator()(const NodesForm& form) const {
    if (!is_list(node, key, subject, reading)) {
      return;
    }
    form.member(object).clear();
    for (const Node& item : node.items) {
      if (item.kind == Node::Kind::mapping) {
        form.member(object).push_back(item);
      } else if (!item.spoiled) {
        tell_wrong_shape(item, subject, "a list of mappings", key.name + ": " + example_of(key),
                         reading.problems);
      }
    }
  }
  void operator()(const MappingForm& form) const {
    void* held = reading.over ? form.get(object) : nullptr;
    const bool over = held != nullptr;  // what is new must be complete
    read_keys(*form.keys, node, over ? held : form.make(object),
              {reading.problems, subject.path, over, {}, {}, {}});
  }
  void operator()(const TextOrMappingForm& form) const {
    if (node.kind == Node::Kind::mapping) {
      form.text(object) = {};
      (*this)(form.mapping);
      return;
    }
    if (node.kind == Node::Kind::list) {
      tell_wrong_shape(node, subject, "a name or a mapping", key.name + ": " + example_of(key),
                       reading.problems);
      return;
    }
    form.drop_mapping(object);
    read_text_value(node, {}, subject, form.text(object), reading.problems);
  }
  void operator()(const ListForm& form) const {
    if (node.kind != Node::Kind::list && !form.keys->alone.empty()) {
      form.clear(object);
      read_keys(*form.keys, node, form.append(object),
                {reading.problems, subject.path, false, {}, {}, {}});
      return;
    }
    if (!is_list(node, key, subject, reading)) {
      return;
    }
    form.clear(object);
    for (std::size_t i = 0; i < node.items.size(); ++i) {
      read_keys(*form.keys, node.items[i], form.append(object),
                {reading.problems, item_path(subject.path, i), false, {}, {}, {}});
    }
  }
  void operator()(const AlternativesForm& form) const {
    if (!is_list(node, key, subject, reading)) {
      return;
    }
    form.clear(object);
    const std::string& discriminator = form.choices->discriminator;
    bool whole = true;
    for (std::size_t i = 0; i < node.items.size(); ++i) {
      const Node& item = node.items[i];
      const Reading inner{
          reading.problems, item_path(subject.path, i), false, {discriminator}, discriminator, {}};
      if (const auto which = read_discriminator(*form.choices, item, inner)) {
        const auto& keys = *form.choices->choices[*which].keys;
        void* made = form.append(object, *which);
        if (keys.word) {
          const Node& word = *item.find(discriminator);
          keys.word(made) = {word.text, word.place, Origin::given};
        }
        read_keys(keys, item, made, inner);
      } else {
        whole = false;
      }
    }
    if (!whole) {
      form.clear(object);  // nothing should be concluded from the order of the rest
    }
  }
};

Number default_number(const Need& need, Dimension dimension, const Bounds& /*bounds*/,
                      const Place& place) {
  const auto parsed = quantities::parse_quantity(need.default_text, dimension, "default");
  expects(!parsed.fault, "a declared default can be read");
  Number number;
  number.best = parsed.si;
  number.from = need.default_source;
  number.text = need.default_text;
  number.place = place;
  number.origin = Origin::by_default;
  return number;
}

/// Gives a key that is absent its default; one overload a form.
struct DefaultGiver {
  const Need& need;
  const Place& place;
  void* object;
  const Reading& reading;
  const Subject& subject;

  void operator()(const NumberForm& form) const {
    form.member(object) = default_number(need, form.dimension, form.bounds, place);
  }
  void operator()(const TextForm& form) const {
    form.member(object) = {need.default_text, place, Origin::by_default};
  }
  void operator()(const TruthForm& /*form*/) const {}
  void operator()(const TableForm& form) const {
    Table table;
    table.points.push_back({0.0, default_number(need, form.dimension, form.bounds, place)});
    table.place = place;
    table.origin = Origin::by_default;
    form.member(object) = std::move(table);
  }
  void operator()(const TextsForm& form) const {
    form.member(object) = {{need.default_text, place, Origin::by_default}};
  }
  void operator()(const NodesForm& form) const { form.member(object).clear(); }
  void operator()(const MappingForm& form) const {
    Node nothing;
    nothing.kind = Node::Kind::mapping;
    nothing.place = place;
    read_keys(*form.keys, nothing, form.make(object),
              {reading.problems, subject.path, false, {}, {}, {}});
  }
  void operator()(const TextOrMappingForm& form) const {
    form.text(object) = {need.default_text, place, Origin::by_default};
  }
  void operator()(const ListForm& form) const { form.clear(object); }
  void operator()(const AlternativesForm& form) const { form.clear(object); }
};

/// A bare text as the mapping it stands for.
Node wrapped(const Node& text, const std::string& key) {
  Node mapping;
  mapping.kind = Node::Kind::mapping;
  mapping.place = text.place;
  mapping.entries.push_back({key, text.place, text});
  return mapping;
}

/// Whether an unknown key of the node, told as such, is likely meant to be this one.
bool is_misspelt(const Key& key, const Declaration& keys, const Node& node) {
  std::vector<std::string> known;
  for (const Key& other : keys.keys) {
    known.push_back(other.name);
  }
  return std::any_of(node.entries.begin(), node.entries.end(), [&](const Entry& entry) {
    const bool unknown = std::find(known.begin(), known.end(), entry.key) == known.end();
    const auto near = unknown ? nearest_words(entry.key, known) : std::vector<std::string>();
    return !near.empty() && near.front() == key.name;
  });
}

void give_absent(const Key& key, const Declaration& keys, const Node& node, const Subject& subject,
                 void* object, const Reading& reading) {
  if (reading.over) {
    return;
  }
  if (const auto* truth = std::get_if<TruthForm>(&key.form)) {
    truth->member(object) = truth->default_value;
  } else if (key.need.kind == Need::Kind::by_default) {
    std::visit(DefaultGiver{key.need, node.place, object, reading, subject}, key.form);
  } else if (key.need.kind == Need::Kind::required && !node.lost_key &&
             !is_misspelt(key, keys, node)) {
    reading.problems.error("E122", node.place,
                           fmt::format("{} is missing: {}.", subject.quoted(), key.help),
                           fmt::format("add  {}: {}", key.name, example_of(key)));
  }
}

}  // namespace

void read_keys(const Declaration& keys, const Node& node, void* object, const Reading& reading) {
  if (node.spoiled) {
    return;
  }
  if (node.is_scalar() && !keys.alone.empty()) {
    read_keys(keys, wrapped(node, keys.alone), object, reading);
    return;
  }
  if (node.kind != Node::Kind::mapping) {
    const Subject subject{reading.path.empty() ? "the sheet" : reading.path, {}, reading.path};
    tell_wrong_shape(node, subject, "keys with values", "key: value", reading.problems);
    return;
  }
  if (keys.place && !reading.over) {
    keys.place(object) = node.place;
  }
  const std::string of = named(keys, node, reading);
  check_keys(keys, node, of, reading);
  for (const Key& key : keys.keys) {
    const Subject subject{key.name, of, join_path(reading.path, key.name)};
    const Node* value = node.find(key.name);
    if (value == nullptr) {
      give_absent(key, keys, node, subject, object, reading);
    } else if (value->kind != Node::Kind::empty) {
      std::visit(ValueReader{key, *value, subject, object, reading}, key.form);
    } else {
      reading.problems.error(
          "E125", value->place,
          fmt::format("{} is empty (a '#' after a space begins a comment).", subject.quoted()),
          fmt::format("write  {}: {}", key.name, example_of(key)));
    }
  }
}

std::optional<std::size_t> read_discriminator(const Choices& choices, const Node& node,
                                              const Reading& reading) {
  std::vector<std::string> words;
  for (const auto& choice : choices.choices) {
    words.push_back(choice.word);
  }
  if (node.spoiled) {
    return std::nullopt;
  }
  const std::string& key = choices.discriminator;
  const std::string example = fmt::format("{}: {}", key, words.empty() ? "" : words.front());
  if (node.kind != Node::Kind::mapping) {
    tell_wrong_shape(node, {reading.path, {}, reading.path}, "keys with values",
                     "{" + example + ", ...}", reading.problems);
    return std::nullopt;
  }
  const Node* value = node.find(key);
  if (value == nullptr) {
    if (!node.lost_key) {
      reading.problems.error("E122", node.place,
                             fmt::format("'{}' is missing: {}.", key, choices.help),
                             "add  " + key + ": one of " + enumerated(words));
    }
    return std::nullopt;
  }
  if (value->spoiled) {
    return std::nullopt;
  }
  const auto found = std::find(words.begin(), words.end(), value->text);
  if (found == words.end()) {
    reading.problems.error("E123", value->place,
                           value->is_scalar()
                               ? fmt::format("there is no {} '{}'.", key, excerpt(value->text))
                               : fmt::format("'{}' must be a word.", key),
                           suggest_word(value->text, words));
    return std::nullopt;
  }
  return static_cast<std::size_t>(found - words.begin());
}

}  // namespace ampstair::sheet
