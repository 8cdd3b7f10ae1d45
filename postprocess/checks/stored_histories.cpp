// SPDX-License-Identifier: MIT
#include "checks/histories.hpp"
#include "history/reader.hpp"

namespace ampstair::post::checks {

namespace {

class StoredHistories final : public Histories {
 public:
  explicit StoredHistories(const std::filesystem::path& path) : reader_(path) {}

  bool finished() const override { return reader_.finished(); }
  std::string attribute(const std::string& name) const override { return reader_.attribute(name); }
  std::string beyond() const override { return reader_.attribute_if_any("beyond"); }
  std::string sheet_text() const override { return reader_.sheet_text(); }
  std::optional<double> closing(const std::string& name) const override {
    return reader_.closing(name);
  }
  std::vector<double> times() const override { return reader_.times(); }
  std::vector<history::Series> series() const override { return reader_.series(); }
  bool has(const std::string& path) const override { return reader_.has(path); }
  std::vector<std::string> tables() const override { return reader_.tables(); }
  std::vector<std::string> columns(const std::string& table) const override {
    return reader_.columns(table);
  }
  history::Naming naming(const std::string& path) const override { return reader_.naming(path); }
  std::vector<double> axis(const std::string& name) const override { return reader_.axis(name); }
  std::vector<double> scalar(const std::string& name) const override {
    return reader_.scalar(name);
  }
  std::vector<double> rows(const std::string& name, std::size_t first,
                           std::size_t count) const override {
    return reader_.rows(name, first, count);
  }
  std::vector<double> numbers(const std::string& group, const std::string& column) const override {
    return reader_.numbers(group, column);
  }
  std::vector<std::string> texts(const std::string& group,
                                 const std::string& column) const override {
    return reader_.texts(group, column);
  }

 private:
  history::RecordReader reader_;
};

}  // namespace

std::unique_ptr<Histories> open_record(const std::filesystem::path& path) {
  return std::make_unique<StoredHistories>(path);
}

}  // namespace ampstair::post::checks
