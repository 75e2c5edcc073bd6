// Package bench times the program as a person waits for it, a whole process per
// command on an invented catalogue, and beside it what else might do the job:
// the sqlite3 shell for import and search, Python with numpy for ranking. It
// holds no code but benchmarks.
//
// A rival runs where it is installed; without it the benchmark says so and times
// lowsone alone. Metrics: rival-ms/op is the rival's time, x-rival lowsone's time
// as a multiple of it (below 1: lowsone is faster). Both read and write files of
// a folder that the test drops.
//
// What is compared is alike, not equal. sqlite3 takes clean cells into typed
// columns with an index on maker and part and a word index, as import does, but
// checks no cell. numpy crosses, slows, rates and sorts every fan of the frame by
// the same formulas, but makes no fit checks and explains nothing.
package bench
