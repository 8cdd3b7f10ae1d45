// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>

namespace ampstair::test {

/// Faults put into a record from outside; each throws std::logic_error if it cannot be put there.
void set_text_attribute(const std::filesystem::path& record, const std::string& name,
                        const std::string& text);
void set_format_version(const std::filesystem::path& record, int major, int minor);
void remove_attribute(const std::filesystem::path& record, const std::string& name);
void remove_object(const std::filesystem::path& record, const std::string& path);
/// Puts a dataset of `length` fixed-length texts in the place of another.
void replace_by_texts(const std::filesystem::path& record, const std::string& path,
                      std::size_t length);
/// Puts a three-dimensional dataset of numbers in the place of another.
void replace_by_block(const std::filesystem::path& record, const std::string& path);
/// Lengthens a dataset along its first dimension without writing a value.
void lengthen(const std::filesystem::path& record, const std::string& path, std::size_t rows);
/// An HDF5 file with nothing in it.
void make_empty_file(const std::filesystem::path& file);

}  // namespace ampstair::test
