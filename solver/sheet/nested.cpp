// SPDX-License-Identifier: MIT
#include "sheet/nested.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

#include "sheet/wording.hpp"

namespace ampstair::sheet {

namespace {

class Collector {
 public:
  void below(const Declaration& keys) {
    std::vector<NestedPart> fresh;
    for (const Key& key : keys.keys) {
      NestedPart part = part_of(key.form);
      if ((part.keys || part.choices) && !seen(part)) {
        parts_.push_back(part);
        fresh.push_back(std::move(part));
      }
    }
    for (const auto& part : fresh) {
      if (part.keys) {
        below(*part.keys);
      } else {
        for (const auto& choice : part.choices->choices) {
          below(*choice.keys);
        }
      }
    }
  }

  std::vector<NestedPart> take() { return std::move(parts_); }

 private:
  static NestedPart part_of(const Form& form) {
    if (const auto* mapping = std::get_if<MappingForm>(&form)) {
      return {mapping->keys, nullptr};
    }
    if (const auto* either = std::get_if<TextOrMappingForm>(&form)) {
      return {either->mapping.keys, nullptr};
    }
    if (const auto* list = std::get_if<ListForm>(&form)) {
      return {list->keys, nullptr};
    }
    if (const auto* alternatives = std::get_if<AlternativesForm>(&form)) {
      return {nullptr, alternatives->choices};
    }
    return {};
  }

  [[nodiscard]] bool seen(const NestedPart& part) const {
    return std::any_of(parts_.begin(), parts_.end(), [&](const NestedPart& other) {
      return (part.choices && part.choices == other.choices) ||
             (part.keys && other.keys && same_keys(*part.keys, *other.keys));
    });
  }

  std::vector<NestedPart> parts_;
};

}  // namespace

std::vector<NestedPart> nested_of(const Declaration& keys) {
  Collector collector;
  collector.below(keys);
  return collector.take();
}

bool same_keys(const Declaration& a, const Declaration& b) {
  const auto same = [](const Key& x, const Key& y) {
    return x.name == y.name && x.help == y.help && describe_form(x.form) == describe_form(y.form) &&
           describe_need(x) == describe_need(y);
  };
  return a.name == b.name && a.help == b.help && a.keys.size() == b.keys.size() &&
         std::equal(a.keys.begin(), a.keys.end(), b.keys.begin(), same);
}

}  // namespace ampstair::sheet
