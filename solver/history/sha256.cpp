// SPDX-License-Identifier: MIT
#include "history/sha256.hpp"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <fstream>
#include <memory>
#include <stdexcept>
#include <vector>

#include "diagnostics/problem.hpp"

namespace ampstair::history {

namespace {

constexpr std::size_t bytes_at_once = 1U << 20U;

/// A digest being made.
class Digest {
 public:
  Digest() : context_(EVP_MD_CTX_new(), &EVP_MD_CTX_free) {
    if (!context_ || EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr) != 1) {
      throw std::runtime_error("libcrypto offers no SHA-256, so nothing can be fingerprinted");
    }
  }
  void add(std::string_view bytes) { EVP_DigestUpdate(context_.get(), bytes.data(), bytes.size()); }
  [[nodiscard]] std::string hexadecimal() {
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int length = 0;
    EVP_DigestFinal_ex(context_.get(), digest.data(), &length);
    std::string text;
    for (unsigned int k = 0; k < length; ++k) {
      text += fmt::format("{:02x}", digest[k]);
    }
    return text;
  }

 private:
  std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context_;
};

}  // namespace

std::string sha256(std::string_view text) {
  Digest digest;
  digest.add(text);
  return digest.hexadecimal();
}

std::string sha256_of_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  Digest digest;
  std::vector<char> block(bytes_at_once);
  while (file) {
    file.read(block.data(), static_cast<std::streamsize>(block.size()));
    digest.add({block.data(), static_cast<std::size_t>(file.gcount())});
  }
  if (!file.eof()) {
    throw diagnostics::InputError("E710", fmt::format("'{}' cannot be read.", path.string()),
                                  "see that the file is there and may be read");
  }
  return digest.hexadecimal();
}

}  // namespace ampstair::history
