// SPDX-License-Identifier: MIT
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <functional>

#include "diagnostics/problem.hpp"
#include "history/reader.hpp"
#include "history/writer.hpp"
#include "history_sample.hpp"

using namespace ampstair;
using Catch::Contains;
using diagnostics::InputError;
using history::IfExists;
using history::RecordReader;
using history::RecordWriter;

namespace {

using Names = std::vector<std::string>;

// Runs `work` in a process that may write files of at most `bytes`, as on a full disk.
int exit_code_on_small_disk(rlim_t bytes, const std::function<int()>& work) {
  const pid_t child = fork();
  if (child == 0) {
    signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{bytes, bytes};
    setrlimit(RLIMIT_FSIZE, &limit);
    _exit(work());
  }
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

TEST_CASE("An existing record is refused with the remedy and left as it was", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 3);
  CHECK_THROWS_WITH(RecordWriter(folder / "a.h5", test::sample_layout(), IfExists::refuse),
                    Contains("E702") && Contains("a.h5") && Contains("--overwrite"));
  CHECK(RecordReader(folder / "a.h5").times().size() == 3);
  CHECK(folder.names() == Names{"a.h5"});
}

TEST_CASE("A replacement takes the name only when it is finished", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 3);
  {
    RecordWriter writer(folder / "a.h5", test::sample_layout(), IfExists::replace_when_finished);
    test::append_sample_row(writer, 0);
    writer.flush();
    CHECK(folder.names() == Names{"a.h5", "a.h5.partial"});
    CHECK(RecordReader(folder / "a.h5").times().size() == 3);
    CHECK(RecordReader(folder / "a.h5.partial").times().size() == 1);
    writer.finish({});
  }
  CHECK(folder.names() == Names{"a.h5"});
  CHECK(RecordReader(folder / "a.h5").times().size() == 1);
}

TEST_CASE("A replacement that is not finished leaves the old record", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 3);
  { RecordWriter(folder / "a.h5", test::sample_layout(), IfExists::replace_when_finished); }
  CHECK(RecordReader(folder / "a.h5").times().size() == 3);
  // What it left does not stand in the way of the next one.
  test::write_sample(folder / "a.h5", 4, IfExists::replace_when_finished);
  CHECK(RecordReader(folder / "a.h5").times().size() == 4);
  CHECK(folder.names() == Names{"a.h5"});
}

TEST_CASE("Two runs do not write one record", "[history]") {
  const test::ScratchFolder folder;
  RecordWriter first(folder / "a.h5", test::sample_layout(), IfExists::refuse);
  CHECK_THROWS_WITH(
      RecordWriter(folder / "a.h5", test::sample_layout(), IfExists::replace_when_finished),
      Contains("E703") && Contains("another run"));
  first.finish({});
}

TEST_CASE("Two replacements do not share one partial record", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 1);
  const auto replace = IfExists::replace_when_finished;
  RecordWriter first(folder / "a.h5", test::sample_layout(), replace);
  CHECK_THROWS_WITH(RecordWriter(folder / "a.h5", test::sample_layout(), replace),
                    Contains("E703") && Contains("a.h5.partial"));
}

TEST_CASE("A folder that is not there is named", "[history]") {
  const test::ScratchFolder folder;
  CHECK_THROWS_WITH(RecordWriter(folder / "no/a.h5", test::sample_layout(), IfExists::refuse),
                    Contains("E701") && Contains("no folder") && Contains("mkdir -p"));
  CHECK(folder.names().empty());
}

TEST_CASE("A folder that cannot be written is named", "[history]") {
  if (geteuid() == 0) {
    WARN("not checked: root may write everywhere");
    return;
  }
  const test::ScratchFolder folder;
  chmod(folder.path().c_str(), S_IRUSR | S_IXUSR);
  CHECK_THROWS_WITH(RecordWriter(folder / "a.h5", test::sample_layout(), IfExists::refuse),
                    Contains("E701") && Contains("cannot be written"));
  chmod(folder.path().c_str(), S_IRWXU);
}

TEST_CASE("A folder or a device is never replaced by a record", "[history]") {
  const test::ScratchFolder folder;
  const std::string place = GENERATE("folder", "/dev/null", "/dev/full");
  const auto in_the_way = place == "folder" ? folder.path() : std::filesystem::path(place);
  const auto type = std::filesystem::status(in_the_way).type();
  CHECK_THROWS_WITH(
      RecordWriter(in_the_way, test::sample_layout(), IfExists::replace_when_finished),
      Contains("E701") && Contains("is not a file"));
  CHECK(std::filesystem::status(in_the_way).type() == type);
}

TEST_CASE("A link that points nowhere is not replaced by a record", "[history]") {
  const test::ScratchFolder folder;
  std::filesystem::create_symlink(folder / "gone", folder / "a.h5");
  CHECK_THROWS_AS(RecordWriter(folder / "a.h5", test::sample_layout(), IfExists::refuse),
                  InputError);
  CHECK(folder.names() == Names{"a.h5"});
}

TEST_CASE("A record is written where a link points", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "old.h5", 1);
  std::filesystem::create_symlink(folder / "old.h5", folder / "a.h5");
  test::write_sample(folder / "a.h5", 2, IfExists::replace_when_finished);
  CHECK(std::filesystem::is_symlink(folder / "a.h5"));
  CHECK(RecordReader(folder / "old.h5").times().size() == 2);
}

TEST_CASE("A disk too small for the beginning of a record refuses the run", "[history]") {
  const test::ScratchFolder folder;
  const rlim_t bytes = GENERATE(0U, 1000U, 10'000U);
  const int code = exit_code_on_small_disk(bytes, [&] {
    try {
      RecordWriter(folder / "a.h5", test::sample_layout(), IfExists::refuse);
    } catch (const InputError& error) {
      return std::string(error.what()).find("E704") == std::string::npos ? 2 : 7;
    }
    return 1;
  });
  CHECK(code == 7);
  CHECK(folder.names().empty());
}

TEST_CASE("A disk that fills up leaves the rows flushed before", "[history]") {
  const test::ScratchFolder folder;
  const int code = exit_code_on_small_disk(60'000, [&] {
    RecordWriter writer(folder / "a.h5", test::sample_layout(), IfExists::refuse);
    try {
      for (std::size_t row = 0; row < 100'000; ++row) {
        test::append_sample_row(writer, row);
        if (row % 100 == 0) {
          writer.flush();
        }
      }
    } catch (const InputError&) {
      return 2;
    } catch (const std::runtime_error& error) {
      return std::string(error.what()).find("a.h5") == std::string::npos ? 3 : 7;
    }
    return 1;
  });
  CHECK(code == 7);
  CHECK(folder.names() == Names{"a.h5"});
  const RecordReader reader(folder / "a.h5");
  CHECK_FALSE(reader.finished());
  CHECK(reader.times().size() > 100);
  CHECK(reader.times().size() % 100 == 1);
}
