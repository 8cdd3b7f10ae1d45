// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "scenario/building.hpp"

namespace ampstair::scenario {

using quantities::Dimension;

Supply build_supply(const SupplySheet& sheet, const Building& building) {
  Supply supply;
  supply.mode = sheet.mode.value == "voltage" ? Supply::Mode::voltage : Supply::Mode::current;
  if (sheet.voltage_limit.present()) {
    supply.voltage_limit =
        building.values.use("supply/voltage_limit", sheet.voltage_limit, Dimension::voltage);
  }
  supply.inner_resistance =
      building.values.use("supply/inner_resistance", sheet.inner_resistance, Dimension::resistance);
  if (sheet.power_limit.present()) {
    supply.power_limit =
        building.values.use("supply/power_limit", sheet.power_limit, Dimension::power);
  }
  if (sheet.leads) {
    const auto& leads = *sheet.leads;
    const std::string path = "supply/leads";
    supply.lead.length = building.values.use(path + "/length", leads.length, Dimension::length);
    supply.lead.area = building.values.use(path + "/area", leads.area, Dimension::area);
    supply.lead.covering =
        building.values.use(path + "/covering", leads.covering, Dimension::length);
    supply.lead.metal = building.material(leads.material, path + "/material", "metal");
    if (supply.lead.metal && supply.lead.metal->resistivity.value.empty()) {
      const auto& choice = leads.material;
      building.problems.error("E152", choice.mapping ? choice.mapping->place : choice.text.place,
                              "the leads' metal has no resistivity.", "choose copper");
    }
  }
  return supply;
}

std::optional<Device> build_device(const RunSheet& sheet, const Building& building) {
  if (!sheet.device) {
    return std::nullopt;
  }
  const DeviceSheet& given = *sheet.device;
  Device device;
  device.kind = given.kind.value;
  device.rating = building.values.use("device/rating", given.rating, Dimension::current);
  if (given.must_hold.present()) {
    device.must_hold = building.values.use("device/must_hold", given.must_hold, Dimension::ratio);
  }
  for (std::size_t i = 0; i < given.must_open.size(); ++i) {
    const auto& opening = given.must_open[i];
    const std::string path = fmt::format("device/must_open/{}", i + 1);
    device.must_open.push_back(
        {building.values.use(path + "/times", opening.times, Dimension::ratio),
         building.values.use(path + "/within", opening.within, Dimension::duration)});
  }
  device.from = given.from.value;
  return device;
}

}  // namespace ampstair::scenario
