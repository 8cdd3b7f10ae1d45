// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::tables {

/// Writes what a viewer of fields needs to show a record's r-z field through time: an XDMF 3 file
/// (xdmf.org) and beside it `<stem>-mesh.h5`, the cells as rectangles, and `<stem>-field-1.h5`,
/// ..., their temperatures moment by moment. The record itself is not referred to: it holds the
/// sides of cells and no corners, and all moments in one dataset, of which readers take slabs in
/// different ways. x is the distance along the run, y the radius, both in metres; every cell has
/// its temperature [degC] and the number of its part. Bodies beside the wire and bays have no radii
/// and are left out.
/// @return the files written, in order
/// @throws diagnostics::InputError: the record keeps no fields; a file of that name exists and
///   `overwrite` is false; the files cannot be written
std::vector<std::filesystem::path> export_xdmf(const checks::Histories& histories,
                                               const std::filesystem::path& file, bool overwrite);

}  // namespace ampstair::post::tables
