// SPDX-License-Identifier: MIT
#include "checks/beside.hpp"

#include <algorithm>
#include <cmath>

#include "checks/amounts.hpp"

namespace ampstair::post::checks {

namespace {

constexpr double same_moment = 0.5;  // s

const Reading* hottest_conductor(const StepFinding& step) {
  for (const auto& part : step.parts) {
    if (part.part == "conductor") {
      return &part.at_end;
    }
  }
  return nullptr;
}

bool same_drive(const StepFinding& a, const StepFinding& b) {
  return a.kind == b.kind && a.course == b.course && a.level == b.level &&
         std::abs(a.begin - b.begin) < same_moment && std::abs(a.end - b.end) < same_moment;
}

std::optional<double> less(const std::optional<double>& a, const std::optional<double>& b) {
  return a && b ? std::optional(*a - *b) : std::nullopt;
}

void set_against(const StepBeside& first, StepBeside& other) {
  if (!first.at_end || !other.at_end) {
    return;
  }
  other.warmer = other.hottest->temperature - first.hottest->temperature;
  const auto a = first.hottest->error();
  const auto b = other.hottest->error();
  other.warmer_error = a && b ? std::optional(*a + *b) : std::nullopt;
  other.more_volts = less(other.step->voltage, first.step->voltage);
}

StepsBeside steps_at(std::size_t index, const std::vector<const Findings*>& findings) {
  StepsBeside row;
  row.number = index + 1;
  for (const auto* one : findings) {
    StepBeside cell;
    if (index < one->steps.size()) {
      cell.step = &one->steps[index];
      cell.hottest = hottest_conductor(*cell.step);
      cell.at_end = cell.hottest != nullptr && cell.step->complete &&
                    std::abs(cell.hottest->time - cell.step->end) < same_moment;
    }
    if (!row.records.empty()) {
      const auto* first = row.records.front().step;
      row.same_drive = row.same_drive && (first != nullptr) == (cell.step != nullptr) &&
                       (first == nullptr || same_drive(*first, *cell.step));
      set_against(row.records.front(), cell);
    }
    row.records.push_back(cell);
  }
  return row;
}

const ItemFinding* item_named(const Findings& findings, const std::string& name) {
  for (const auto& item : findings.items) {
    if (item.item.name == name) {
      return &item;
    }
  }
  return nullptr;
}

std::optional<double> moment(const ItemFinding& finding) {
  return finding.crossing ? std::optional(finding.crossing->time) : std::nullopt;
}

/// The results of both go to the same moment: else the one that ends first is above for less.
bool as_long(const Findings& a, const Findings& b) {
  const auto whole = [](const Findings& findings) {
    return std::none_of(findings.validity.begin(), findings.validity.end(), [&](const auto& flag) {
      return flag.severity == "stop" ||
             (flag.severity == "beyond" && findings.heading.beyond.empty());
    });
  };
  return whole(a) && whole(b) && std::abs(a.heading.ends - b.heading.ends) < same_moment;
}

ItemsBeside items_named(const std::string& name, const std::vector<const Findings*>& findings) {
  ItemsBeside row;
  row.name = name;
  for (const auto* one : findings) {
    ItemBeside cell;
    cell.item = item_named(*one, name);
    if (!row.records.empty()) {
      const auto* first = row.records.front().item;
      if (first != nullptr && cell.item != nullptr) {
        cell.later = less(moment(*cell.item), moment(*first));
        if (as_long(*findings.front(), *one)) {
          cell.longer = less(cell.item->longest, first->longest);
        }
        row.flips = row.flips || first->state != cell.item->state;
        row.same_limit = row.same_limit && first->item.part == cell.item->item.part &&
                         limit_text(first->item) == limit_text(cell.item->item);
      }
    }
    row.records.push_back(cell);
  }
  return row;
}

}  // namespace

Beside beside(const std::vector<const Findings*>& findings) {
  Beside result;
  std::size_t most = 0;
  std::vector<std::string> names;
  for (const auto* one : findings) {
    most = std::max(most, one->steps.size());
    for (const auto& item : one->items) {
      if (std::find(names.begin(), names.end(), item.item.name) == names.end()) {
        names.push_back(item.item.name);
      }
    }
  }
  for (std::size_t s = 0; s < most; ++s) {
    result.steps.push_back(steps_at(s, findings));
  }
  for (const auto& name : names) {
    result.items.push_back(items_named(name, findings));
  }
  return result;
}

}  // namespace ampstair::post::checks
