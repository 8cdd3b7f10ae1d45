// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::diagnostics {

/// What both programs tell the shell. The values are a public interface: scripts depend on them.
enum class ExitCode : int {
  clear = 0,        ///< done; for a verdict: every watch item is clear of its limit
  crossed = 1,      ///< a verdict found at least one watch item crossed
  bad_input = 2,    ///< the input cannot be used; nothing was written
  undecided = 3,    ///< nothing crossed, but an item is near its limit or cannot be judged; for a
                    ///< march: it stopped where the model no longer holds
  interrupted = 4,  ///< stopped by the user or a full disk; the record ends at its last flushed row
  internal_error = 5  ///< a fault of the program, not of the input
};

}  // namespace ampstair::diagnostics
