// Package bench times the program as a person waits for it, a whole process per
// command on an invented catalogue, and beside it what else might do the job:
// the sqlite3 shell for import, search and ranking by SQL, Python with numpy and
// pandas for ranking. It holds no code but benchmarks.
//
// BenchmarkRivals runs each job and its rival in turn, so that whatever else the
// machine does falls on both, and prints one line a job: the medians, how far the
// runs were apart, and lowsone's time as a multiple of the rival's (below 1:
// lowsone is faster) with what it must and what it should come to. A rival runs
// where it is installed; without it the line says so. All read and write files of
// a folder that the benchmark drops.
//
// What is compared is alike, not equal. sqlite3 takes clean cells into typed
// columns with two indexes and a word index, as import does, but checks no cell
// and keeps no row it cannot read. By SQL it ranks all fans as if their curves
// were straight lines, by crossing, matched speed and level, without checks of
// fit; lowsone ranks the same fans by their own curves. numpy does so for the
// fans of one frame, by the mean shape of a curve. Neither explains anything.
package bench
