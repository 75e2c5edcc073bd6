// Package tabular turns the bytes of a CSV file that nobody prepared, or of a
// sheet of a workbook (.xlsx), into rows of text, each with its place in the file.
// It knows nothing of what the cells mean.
//
// [Open] reads the whole file to find out how it is written, first its bytes
// (character set), then its rows (delimiter, quoting, title lines, header, decimal
// mark, how many there are). [File.Rows] reads it once more to hand the rows out.
// Memory is bounded by the longest record ([MaxRecord]), never by the file; for a
// workbook by the texts its sheets share too ([MaxShared]).
//
// Assumptions on texts:
//   - A file has one character set, one delimiter and one way of quoting. The
//     decimal mark may differ from column to column if the cells prove it.
//   - A line ends with LF, CRLF or a lone CR, also mixed. Form feeds are dropped
//     before anything is counted. Line numbers are those a text editor shows.
//   - A column of a [Position] counts characters (Unicode code points) from 1.
//   - Lines without any cell content (only delimiters, blanks, or the end-of-file
//     mark of old systems, U+001A) are no rows.
//   - Quoting is that of encoding/csv, thus of RFC 4180, with any delimiter. Where
//     a file breaks it, the rule is relaxed for the whole file and a note says so:
//     blanks before a quote mark, quote marks inside cells, and last quote marks
//     that are not doubled inside quoted cells, if that loses fewer rows. An
//     unclosed quote is refused.
//
// Assumptions on workbooks, which are told by their bytes and not by their name:
//   - The first sheet that is not hidden is meant, unless one is named. The others
//     are said.
//   - A cell is what it holds, not what it shows: 28.5 shown as 29 is 28.5. A number
//     is written with the decimal mark of its column (a point, unless texts in the
//     column prove a comma), to the 15 digits that spreadsheets keep, and with the
//     unit or the currency that its format shows, as 24.5 CFM; a date as
//     2030-04-05, a time as 12:30:00; a truth as true or false; an error as it
//     stands. Of a formula the value is read that was reckoned last: nothing is
//     reckoned here.
//   - What stands in a merged cell of several rows below the header holds for each
//     of them. Hidden rows are read. Both are said.
//   - What stands twenty empty columns and more to the right of all else does not
//     belong to the table. It is left out, and that is said.
//   - A line of a [Position] is the number of a row, a column that of a column.
//   - An archive is not trusted: it is refused, and never read in part, where
//     something in it is damaged, missing or larger than the limits.
//
// The XML is read here, not by a library for spreadsheets: those at hand say
// neither whether a cell is a number or a text, nor its style, unless they load the
// whole sheet; they take damage for the end of a sheet; and they cost each start of
// the program, also where no sheet is read. One of them is what the tests write
// workbooks with, and hold the reading against.
//
// # References
//
//   - RFC 4180, Common Format and MIME Type for CSV Files, section 2.
//   - WHATWG Encoding Standard, names and labels, as golang.org/x/text/encoding/htmlindex has them.
//   - Unicode Standard, section 23.8: byte order mark.
//   - ECMA-376, Office Open XML File Formats, part 1 (clause 18, SpreadsheetML) and part 2 (clause 9, packages).
//   - APPNOTE.TXT, .ZIP File Format Specification, section 4; [MS-CFB], Compound File Binary File Format, section 2.2.
package tabular
