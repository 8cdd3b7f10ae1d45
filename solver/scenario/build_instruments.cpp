// SPDX-License-Identifier: MIT
#include "scenario/building.hpp"

namespace ampstair::scenario {

namespace {

std::optional<double> given(const sheet::Number& number) {
  return number.present() ? std::optional(number.best) : std::nullopt;
}

/// The sheet's spots have been checked: what cannot be placed here has been told already.
Spot place(const sheet::Text& text, const std::vector<Extent>& run) {
  diagnostics::ProblemList told_before;
  return {text.value, locate(text, "spot", run, told_before).value_or(0.0)};
}

}  // namespace

Instruments build_instruments(const InstrumentsSheet& sheet, const std::vector<Extent>& run,
                              double air) {
  Instruments built;
  if (sheet.camera) {
    Camera camera;
    camera.emissivity_set = sheet.camera->emissivity_set.best;
    camera.reflected = given(sheet.camera->reflected).value_or(air);
    camera.ceiling = given(sheet.camera->ceiling);
    camera.distance = given(sheet.camera->distance);
    camera.pixel = given(sheet.camera->ifov);
    for (const auto& aim : sheet.camera->aim) {
      camera.aim.push_back(place(aim, run));
    }
    built.camera = std::move(camera);
  }
  for (const auto& couple : sheet.thermocouples) {
    built.thermocouples.push_back({couple.name.value, place(couple.spot, run), couple.under.value,
                                   given(couple.lag).value_or(0.0)});
  }
  if (sheet.voltmeter && sheet.voltmeter->taps.size() == 2) {
    built.voltmeter =
        Voltmeter{place(sheet.voltmeter->taps[0], run), place(sheet.voltmeter->taps[1], run),
                  given(sheet.voltmeter->error).value_or(0.0)};
  }
  if (sheet.touch) {
    Touch touch;
    touch.contact = sheet.touch->contact.best;
    for (const auto& spot : sheet.touch->spots) {
      touch.spots.push_back(place(spot, run));
    }
    built.touch = std::move(touch);
  }
  return built;
}

}  // namespace ampstair::scenario
