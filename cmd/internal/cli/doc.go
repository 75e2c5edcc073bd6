// Package cli is the command line: it reads flags and arguments, calls the
// packages that do the work, and hands what comes out to package view.
//
// Each command has a file with three parts: its options, newXCmd that reads
// them, and runX that works on them and never sees the flag library. All
// streams, the clock, the environment and the data folder are injected with
// [Env]; [Main] gives the exit code and never ends the process.
//
// Assumptions:
//   - Results go to standard output, everything else to standard error.
//   - Exit codes: 0 done, 1 failed, 2 wrong usage, 3 nothing found or nothing
//     fits.
package cli
