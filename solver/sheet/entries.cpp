// SPDX-License-Identifier: MIT
#include "sheet/entries.hpp"

#include <fmt/format.h>

#include <set>

#include "sheet/declaration.hpp"

namespace ampstair::sheet {

namespace {

using Entries = std::vector<SheetEntry>;

std::string below(const std::string& path, const std::string& key) {
  return path.empty() ? key : path + "/" + key;
}

/// Names of the items of one list, each once.
class ItemNames {
 public:
  std::string name(const std::string& own, std::size_t index) {
    const std::string wanted = own.empty() ? fmt::format("{}", index + 1) : own;
    std::string name = wanted;
    for (int again = 2; !taken_.insert(name).second; ++again) {
      name = fmt::format("{} ({})", wanted, again);
    }
    return name;
  }

 private:
  std::set<std::string> taken_;
};

/// What an item of a list calls itself; empty where it has no key `name`.
std::string own_name(const Declaration& keys, void* object) {
  for (const Key& key : keys.keys) {
    if (key.name == "name") {
      if (const auto* form = std::get_if<TextForm>(&key.form)) {
        return form->member(object).value;
      }
    }
  }
  return {};
}

std::string own_name(const Node& node) {
  const Node* name = node.find("name");
  return name != nullptr && name->is_scalar() ? name->text : std::string();
}

void list_node(Entries& all, const std::string& path, const Node& node) {
  if (node.is_scalar()) {
    all.push_back({path, node.text, {}, {}, {}, {}, {}, false});
  }
  for (const Entry& entry : node.entries) {
    list_node(all, below(path, entry.key), entry.value);
  }
  ItemNames names;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    list_node(all, below(path, names.name(own_name(node.items[i]), i)), node.items[i]);
  }
}

/// As written, or where a program made the value, every digit of it.
std::string written(const std::string& text, double si, Dimension dimension) {
  const auto unit = quantities::si_unit(dimension);
  return !text.empty()  ? text
         : unit.empty() ? fmt::format("{}", si)
                        : fmt::format("{} {}", si, unit);
}

std::string with_band(const Number& number, Dimension dimension) {
  const std::string best = written(number.text, number.best, dimension);
  const auto end = [&](const std::optional<double>& value, const std::string& text) {
    return value ? written(text, *value, dimension) : std::string("open");
  };
  return number.low || number.high
             ? fmt::format("{} ({} to {})", best, end(number.low, number.low_text),
                           end(number.high, number.high_text))
             : best;
}

void list(Entries& all, const std::string& path, const Declaration& keys, void* object);

/// Lists what one key holds; one overload a form.
struct KeyEntries {
  const Key& key;
  void* object;
  const std::string& above;
  Entries& all;

  [[nodiscard]] std::string path() const { return below(above, key.name); }

  void number(const std::string& at, const Number& number, Dimension dimension) const {
    all.push_back({at, with_band(number, dimension), number.best, number.low, number.high,
                   std::string(quantities::si_unit(dimension)), number.from, !number.given()});
  }
  void text(const Text& text) const {
    if (text.present()) {
      word(text.value, text.origin == Origin::by_default);
    }
  }
  void word(const std::string& value, bool by_default) const {
    all.push_back({path(),
                   value,
                   {},
                   {},
                   {},
                   {},
                   by_default ? key.need.default_source : std::string(),
                   by_default});
  }

  void operator()(const NumberForm& form) const {
    if (const Number& held = form.member(object); held.present()) {
      number(path(), held, form.dimension);
    }
  }
  void operator()(const TextForm& form) const { text(form.member(object)); }
  void operator()(const TruthForm& form) const {
    const bool truth = form.member(object);
    word(truth ? "true" : "false", truth == form.default_value);
  }
  void operator()(const TableForm& form) const {
    const Table& table = form.member(object);
    if (!table.present()) {
      return;
    }
    for (const auto& point : table.points) {
      number(table.points.size() == 1 ? path()
                                      : below(path(), fmt::format("at {} K", point.temperature)),
             point.value, form.dimension);
    }
  }
  void operator()(const TextsForm& form) const {
    std::string list;
    for (const auto& text : form.member(object)) {
      list += (list.empty() ? "" : ", ") + text.value;
    }
    if (const auto& texts = form.member(object); !texts.empty()) {
      word(list, texts.front().origin == Origin::by_default);
    }
  }
  void operator()(const NodesForm& form) const {
    ItemNames names;
    const auto& nodes = form.member(object);
    for (std::size_t i = 0; i < nodes.size(); ++i) {
      list_node(all, below(path(), names.name(own_name(nodes[i]), i)), nodes[i]);
    }
  }
  void operator()(const MappingForm& form) const {
    if (void* held = form.get(object); held != nullptr) {
      list(all, path(), *form.keys, held);
    }
  }
  void operator()(const TextOrMappingForm& form) const {
    if (const Text& chosen = form.text(object); chosen.present()) {
      text(chosen);
    } else {
      (*this)(form.mapping);
    }
  }
  void operator()(const ListForm& form) const {
    ItemNames names;
    for (std::size_t i = 0; i < form.size(object); ++i) {
      void* item = form.at(object, i);
      list(all, below(path(), names.name(own_name(*form.keys, item), i)), *form.keys, item);
    }
  }
  void operator()(const AlternativesForm& form) const {
    ItemNames names;
    for (std::size_t i = 0; i < form.size(object); ++i) {
      const auto [which, item] = form.at(object, i);
      const auto& choice = form.choices->choices[which];
      const std::string at = below(path(), names.name(own_name(*choice.keys, item), i));
      all.push_back(
          {below(at, form.choices->discriminator), choice.word, {}, {}, {}, {}, {}, false});
      list(all, at, *choice.keys, item);
    }
  }
};

void list(Entries& all, const std::string& path, const Declaration& keys, void* object) {
  for (const Key& key : keys.keys) {
    std::visit(KeyEntries{key, object, path, all}, key.form);
  }
}

}  // namespace

std::vector<SheetEntry> list_entries(const Declaration& keys, void* object) {
  Entries all;
  list(all, {}, keys, object);
  return all;
}

}  // namespace ampstair::sheet
