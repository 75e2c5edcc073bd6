// Package endure puts the program through what a disk, a person or a power cut
// does to it, a whole process per command: kills at any moment, a full disk, a
// folder that may not be written or goes away, imports and readers at once. It
// holds no code but tests.
//
// After each of it the catalogue must answer as the old or as the new one, whole,
// and the next import must work and leave nothing behind but what is promised:
// the live catalogue, the one before, and the list of rejected rows.
//
// A part that a machine cannot do, such as mounting a small disk, is skipped and
// says so. LOWSONE_ENDURE_KILLS says how often to kill, 10 if it says nothing;
// `make endure` kills 120 times.
package endure
