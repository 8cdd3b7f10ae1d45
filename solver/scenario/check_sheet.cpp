// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>

#include "scenario/arrangement.hpp"
#include "scenario/building.hpp"
#include "sheet/nearest.hpp"

namespace ampstair::scenario {

namespace {

using diagnostics::ProblemList;

/// Tells names that occur twice among things of one kind.
class NameBook {
 public:
  NameBook(std::string plural, std::string reason, ProblemList& problems)
      : plural_(std::move(plural)), reason_(std::move(reason)), problems_(problems) {}

  void enter(const sheet::Text& name) {
    if (!name.present()) {
      return;
    }
    const auto [first, is_new] = lines_.emplace(name.value, name.place.line);
    if (!is_new) {
      problems_.error("E160", name.place,
                      fmt::format("two {} are named '{}' (first at line {}).", plural_, name.value,
                                  first->second),
                      fmt::format("{}; rename one, e.g. {}", reason_, another(name.value)));
    }
  }

 private:
  /// "K1" -> "K2", "splice" -> "splice 2".
  static std::string another(const std::string& name) {
    if (!name.empty() && name.back() >= '1' && name.back() <= '8') {
      return name.substr(0, name.size() - 1) + static_cast<char>(name.back() + 1);
    }
    return name + " 2";
  }

  std::string plural_;
  std::string reason_;
  ProblemList& problems_;
  std::map<std::string, int> lines_;
};

bool is_end(const AnyPieceSheet& piece) {
  return std::holds_alternative<LugSheet>(piece) || std::holds_alternative<CutEndSheet>(piece);
}

void check_end(const AnyPieceSheet& piece, const char* which, ProblemList& problems) {
  if (!is_end(piece)) {
    const auto& word = base(piece).word;
    problems.error("E163", word.place,
                   fmt::format("the run must begin and end with a lug or a cut-end ({} piece is "
                               "'{}').",
                               which, word.value),
                   "add  {piece: lug, name: B, contact: 0.35 mohm, sinks_to: supply-lead}; without "
                   "it the end temperature is undefined");
  }
}

void check_taps(const VoltmeterSheet& voltmeter, const std::vector<Extent>& run,
                ProblemList& problems) {
  std::vector<double> positions;
  for (const auto& tap : voltmeter.taps) {
    if (const auto position = locate(tap, "tap", run, problems)) {
      positions.push_back(*position);
    }
  }
  if (voltmeter.taps.size() != 2) {
    problems.error("E168", voltmeter.taps.empty() ? sheet::Place{} : voltmeter.taps.front().place,
                   fmt::format("a voltmeter has two taps (read {}).", voltmeter.taps.size()),
                   "write  taps: [A + 0.05 m, B - 0.05 m]");
  } else if (positions.size() == 2 && positions[0] >= positions[1]) {
    problems.warning("W262", voltmeter.taps.front().place,
                     fmt::format("tap '{}' does not come before tap '{}'; the voltage would read "
                                 "negative.",
                                 voltmeter.taps[0].value, voltmeter.taps[1].value),
                     "swap the two");
  }
}

void check_camera(const CameraSheet& camera, const RunSheet& sheet, ProblemList& problems) {
  if (!camera.ceiling.given() || !sheet.around) {
    return;
  }
  for (const auto& air : sheet.around->air) {
    if (air.temperature.given() && camera.ceiling.best <= air.temperature.best) {
      problems.warning("W261", camera.ceiling.place,
                       fmt::format("the camera's ceiling ({}) is not above the air ({}).",
                                   camera.ceiling.text, air.temperature.text),
                       "'ceiling' is the highest temperature it can show");
      return;
    }
  }
}

}  // namespace

void check_names(const RunSheet& sheet, ProblemList& problems) {
  NameBook pieces("pieces", "names locate instruments and changes", problems);
  for (const auto& piece : sheet.run) {
    pieces.enter(base(piece).name);
  }
  NameBook arrangements("arrangements", "names call them up", problems);
  for (const auto& arrangement : sheet.arrangements) {
    arrangements.enter(arrangement.name);
    if (arrangement.name.value == as_built) {
      problems.error("E160", arrangement.name.place,
                     "'as built' is the run itself and always there.", "choose another name");
    }
  }
  NameBook probes("probes", "names head their columns", problems);
  for (const auto& probe : sheet.probes) {
    probes.enter(probe.name);
  }
  if (sheet.instruments) {
    NameBook couples("thermocouples", "names tell readings apart", problems);
    for (const auto& couple : sheet.instruments->thermocouples) {
      couples.enter(couple.name);
    }
  }
}

void check_ends(const RunSheet& sheet, ProblemList& problems) {
  if (sheet.run.empty()) {
    return;
  }
  check_end(sheet.run.front(), "first", problems);
  if (sheet.run.size() > 1) {
    check_end(sheet.run.back(), "last", problems);
  }
  for (std::size_t i = 1; i + 1 < sheet.run.size(); ++i) {
    if (is_end(sheet.run[i])) {
      const auto& word = base(sheet.run[i]).word;
      problems.error("E169", word.place,
                     fmt::format("a {} stands inside the run; it belongs at an end.", word.value),
                     "move it to the first or last place; for a joint inside write a splice");
    }
  }
  if (sheet.run.size() < 3) {
    problems.error("E169", base(sheet.run.back()).word.place,
                   "the run has no wire between its ends.",
                   "add  - {piece: open, name: leg, length: 1.00 m}  between them");
  }
}

void check_instruments(const RunSheet& sheet, const std::vector<Extent>& run,
                       ProblemList& problems) {
  if (!sheet.instruments) {
    return;
  }
  const auto& instruments = *sheet.instruments;
  if (instruments.camera) {
    for (const auto& aim : instruments.camera->aim) {
      locate(aim, "aim", run, problems);
    }
    check_camera(*instruments.camera, sheet, problems);
  }
  for (const auto& couple : instruments.thermocouples) {
    if (couple.spot.present()) {
      locate(couple.spot, "spot", run, problems);
    }
  }
  if (instruments.voltmeter) {
    check_taps(*instruments.voltmeter, run, problems);
  }
  if (instruments.touch) {
    for (const auto& spot : instruments.touch->spots) {
      locate(spot, "spot", run, problems);
    }
  }
}

void check_study(const RunSheet& sheet, ProblemList& problems) {
  if (!sheet.study) {
    return;
  }
  const auto& study = *sheet.study;
  if (study.members.best > 1.0 && !study.seed.present()) {
    problems.error("E145", study.place,
                   "the study has many members but no seed, so nobody could repeat it.",
                   "add  seed: 20260311  (any whole number)");
  }
  if (!study.find || !study.find->largest_current) {
    return;
  }
  const auto& keep = study.find->largest_current->keep;
  std::vector<std::string> items;
  for (const auto& item : sheet.watch) {
    items.push_back(item.name.value);
  }
  if (keep.present() && std::find(items.begin(), items.end(), keep.value) == items.end()) {
    const auto near = sheet::nearest_words(keep.value, items);
    problems.error(
        "E146", keep.place, fmt::format("no watch item is named '{}'.", keep.value),
        near.empty() ? "write the name of an entry of watch" : "nearest: " + near.front());
  }
}

}  // namespace ampstair::scenario
