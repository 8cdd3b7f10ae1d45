// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::post {

inline constexpr double celsius_zero = 273.15;  ///< K

}  // namespace ampstair::post
