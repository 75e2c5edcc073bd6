// Package devicefile reads what was recorded of a device at the bench from a
// YAML file into a match.Device, and says of everything that is wrong with the
// file where it stands.
//
// One set of tables holds every key with its meaning, example and bounds. Of it
// come the reader, which is strict, the commented template (Template) and the
// JSON Schema (Schema). Quantities are written with their units, 60 mm or 24 °C;
// what is not known is left out, left blank, or written as unknown. ReportOf says
// what a device still lacks, and what each answer would sharpen.
//
// Sounds may be told by bands, in the file or in a table beside it. The package
// reads no files itself: Parse is handed what reads a table.
//
// A device file is plain YAML: maps, lists and values. Anchors, aliases, tags,
// several documents and text over several lines are refused, files above 1 MiB
// too, so that no file costs more than a moment to refuse.
//
// Bounds and the plausibility of what stands together are common practice,
// without a published source.
package devicefile
