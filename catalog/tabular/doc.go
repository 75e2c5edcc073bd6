// Package tabular turns the bytes of a CSV file that nobody prepared into rows
// of text, each with its place in the file. It knows nothing of what the cells
// mean.
//
// [Open] reads the whole file to find out how it is written, first its bytes
// (character set), then its rows (delimiter, quoting, title lines, header, decimal
// mark, how many there are). [File.Rows] reads it once more to hand the rows out.
// Memory is bounded by the longest record ([MaxRecord]), never by the file.
//
// Assumptions:
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
// # References
//
//   - RFC 4180, Common Format and MIME Type for CSV Files, section 2.
//   - WHATWG Encoding Standard, names and labels, as golang.org/x/text/encoding/htmlindex has them.
//   - Unicode Standard, section 23.8: byte order mark.
package tabular
