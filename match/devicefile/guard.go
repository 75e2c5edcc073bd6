package devicefile

import (
	"bytes"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml/token"
)

// Bounds of a device file. A long one has some hundred lines; beyond these the
// YAML library takes seconds, or recurses as deep as the file likes.
const (
	MostBytes  = 1 << 20
	mostLines  = 10_000
	mostLine   = 1000   // characters
	mostMarks  = 40_000 // characters that structure a file
	mostTokens = 20_000
	mostDepth  = 16
)

// marks are the characters that structure a YAML file.
const marks = "[]{},:?&*!|>%@`-"

// textOf takes data for a text of this size, character set and line ends. The
// error is an *Error.
func textOf(name string, data []byte) (*text, string, error) {
	t := &text{name: name}
	refuse := problems{text: t}
	if len(data) > MostBytes {
		refuse.addf(Place{}, "", "%d bytes, a device file has at most %d", len(data), MostBytes)
		return nil, "", refuse.err()
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	source := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(data))
	t.lines = strings.Split(source, "\n")
	refuse.characters(t.lines)
	refuse.sizes(source)
	if err := refuse.err(); err != nil {
		return nil, "", err
	}
	// A tab behind the indentation is a blank; as one character it keeps columns.
	return t, strings.ReplaceAll(source, "\t", " "), nil
}

// characters refuses what is no text, and tabs that indent.
func (p *problems) characters(lines []string) {
	for i, line := range lines {
		for column, r := range []rune(line) {
			at := Place{i + 1, column + 1}
			switch {
			case r == utf8.RuneError:
				p.addf(at, "save the file as UTF-8", "this character is not UTF-8")
			case r == '\t' && strings.TrimLeft(line[:offset(line, column)], " \t") == "":
				p.addf(at, "indent with spaces", "a tab indents this line")
			case r != '\t' && unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp):
				p.addf(at, "", "control character %U", r)
			default:
				continue
			}
			break // one a line
		}
	}
}

// offset gives the byte at which a column, from 0, of a line begins.
func offset(line string, column int) int {
	for i := range line {
		if column == 0 {
			return i
		}
		column--
	}
	return len(line)
}

func (p *problems) sizes(source string) {
	if len(p.text.lines) > mostLines {
		p.addf(Place{mostLines + 1, 1}, "", "%d lines, a device file has at most %d", len(p.text.lines), mostLines)
	}
	for i, line := range p.text.lines {
		if n := utf8.RuneCountInString(line); n > mostLine {
			p.addf(Place{i + 1, mostLine + 1}, "", "a line of %d characters, at most %d", n, mostLine)
		}
	}
	n := 0
	for _, mark := range marks {
		n += strings.Count(source, string(mark))
	}
	if n > mostMarks {
		p.addf(Place{}, "", "%d characters of structure, such as colons and brackets, a device file has at most %d", n, mostMarks)
	}
}

// unwanted names the means of YAML that a device file does without.
var unwanted = map[token.Type]complaint{
	token.AnchorType:     {"an anchor, &,", plainly},
	token.AliasType:      {"an alias, *,", plainly},
	token.TagType:        {"a tag, !,", plainly},
	token.MergeKeyType:   {"a merge key, <<,", ""},
	token.DirectiveType:  {"a directive, %,", ""},
	token.MappingKeyType: {"a key marked with ?", "write KEY: VALUE"},
	token.LiteralType:    {"text over several lines, |,", "write it in one line"},
	token.FoldedType:     {"text over several lines, >,", "write it in one line"},
}

const plainly = "if it is meant as text, put it in quotes"

// tokens refuses what a device file does without and what would nest too deep.
func (p *problems) tokens(all token.Tokens) {
	if len(all) > mostTokens {
		p.addf(placeOf(all[mostTokens]), "", "%d words and marks, a device file has at most %d", len(all), mostTokens)
		return
	}
	flow, dashes := 0, 0
	for i, t := range all {
		if what, bad := unwanted[t.Type]; bad {
			p.addf(placeOf(t), what.mend, "%s has no place in a device file", what.of)
		}
		if i > 0 && all[i-1].Position.Line != t.Position.Line {
			dashes = 0
		}
		switch t.Type {
		case token.SequenceStartType, token.MappingStartType:
			flow++
		case token.SequenceEndType, token.MappingEndType:
			flow--
		case token.SequenceEntryType:
			dashes++
		}
		if flow > mostDepth || dashes > mostDepth {
			p.tooDeep(placeOf(t))
			return
		}
	}
}

func (p *problems) tooDeep(at Place) {
	p.addf(at, "", "nested deeper than %d", mostDepth)
}

func placeOf(t *token.Token) Place {
	if t == nil || t.Position == nil {
		return Place{}
	}
	return Place{t.Position.Line, max(t.Position.Column, 1)}
}

// usual names the mend of what the YAML library complains of most.
func usual(message string) string {
	i := slices.IndexFunc(complaints, func(c complaint) bool { return strings.Contains(message, c.of) })
	if i < 0 {
		return ""
	}
	return complaints[i].mend
}

type complaint struct{ of, mend string }

var complaints = []complaint{
	{"mapping value is not allowed", "put text that holds a colon and a blank in quotes, and indent everything of one part alike"},
	{"could not find end character", "close the quotes"},
	{"non-map value", "write KEY: VALUE, with a blank behind the colon, and indent everything of one part alike"},
	{"value is not allowed in this context", "indent everything of one part alike"},
	{"reserved character", "put text that begins so in quotes"},
	{"not found", "close the bracket"},
}
