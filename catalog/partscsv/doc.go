// Package partscsv reads the rows of a parts CSV that nobody prepared into
// fans, and writes fans as the tool's own CSV.
//
// [NewPlan] finds out what each column is, from the trade words of package
// catalog in its header, the unit in header or cells, the cells themselves, and
// what other columns leave over; [Plan.Columns] tells what was found and why. A
// [Reader] then makes a [catalog.Fan] of each row, or a [RowError]. Every
// reading that is not plain leaves a remark with the fan.
//
// How a column is recognised. Header and table words are brought to stems:
// small letters, no accents, umlauts also as ae, oe, ue, no plurals, compounds
// taken apart. A word of the tables fits if all its parts stand in the header,
// in any order. Each column is scored for each field: the word (it names the
// field, has several meanings, or is a letter), the unit, the share of sampled
// cells that read as the field, less what other words of the header say. The
// surest pair of column and field is settled first; a field has one column and a
// column one field. A second column for a field in another unit is held against
// the first. Nothing is matched by likeness of spelling; that serves suggestions
// in messages only. The order of the columns does not matter unless two headers
// are the same.
//
// Assumptions, each said in the column report or a remark (common practice):
//   - Where nothing names a unit: the unit another column proves, else the usual
//     one of the trade in which most sampled cells are possible, the others being
//     rejected; m³/h for a flow, with a loud note, since CFM is as possible.
//   - Where no header names the part, an article, reference or order number is it;
//     of several the one whose cells look more like part numbers (letters and forms
//     that vary, sizes of their rows) than running numbers (one prefix, counting
//     on). The column's notes name the option for the other.
//   - A number without unit under a word such as "consumption" is a current or a
//     power: the one with which the fan puts a usual share of its power into the
//     air, else what most cells of the column name, else unknown.
//   - A column of amounts that all name a currency is the price, whatever its
//     header. Words for some pieces in stock are no number of them: they are kept
//     as such; words for none are 0.
//   - A range gives its cautious end: the low one of flow, pressure and life, the
//     high one of level, current, power, speed and temperature. A bound ("< 20",
//     "up to 50") is read as the value, with a warning; the least a level may be is
//     none.
//   - Words in brackets behind a number that name no number and no unit, "25 (ohne
//     Gitter)", are a remark.
//   - Numbers from 2 to 5 under a word for a connection are leads. dB without a
//     weighting is dB(A).
//   - Two units in one cell, or in two columns, may be 3 % apart; up to 25 % the
//     first counts, with a warning; beyond, one is a slip and the row is rejected.
//     Of lengths the millimetres count, as inches are rounded from them.
//   - A pair "45/53" holds for two mains frequencies: the one for 50 Hz is read
//     where the row names both, else the lower flow and the higher level.
//   - "60x25" is a square frame 25 mm deep, as the second number is under 0.8 of
//     the first; 6025 in a size column is the frame code of the same.
//   - A width or height that contradicts the sides of every size in another column
//     is the thickness of the frame: it is read as the depth, with a note, where it
//     is less than the sides and nothing else gives one, and else not read.
//   - A level in bels is a sound power. A level under 10 dB(A) is rejected, as it
//     may be in bels.
//   - Five columns or more whose headers are mid-band frequencies, and nothing but
//     words of noise, are the bands of one spectrum, unless cells hold no levels;
//     50 Hz among octaves is a mains frequency. Of two such spectra the one with
//     more bands is read, then the unweighted, then that of sound pressure. Bare
//     numbers are bands only in a row with 63, since quantities are counted in 125,
//     250, 500 as well.
//   - Band levels are unweighted unless header or cell says A; the weighting is then
//     taken off at the exact mid-band frequency, to 0.01 dB. acoustics.ReadBands
//     says whether they are a spectrum. They are brought to the kind and distance
//     of the level; what only they say of these holds for the level too. Their
//     A-weighted sum may be 3 dB from the level, and is the level where none is
//     stated.
//   - A nominal voltage that is not stated is estimated where its range holds only
//     one usual one; a tach whose pulses are not stated is estimated to give two.
//
// Rows do not go through gocsv when they are read: its struct tags fix the
// headers beforehand, where here they are found in the file, and its rows carry
// no place in the file. The tool's own CSV is written with it, and a test reads
// it back with it.
package partscsv
