package tabular

import (
	"context"
	"strconv"
	"strings"
)

// numberForm is what the number format of a cell says its number is. How many
// digits it shows does not matter: 28.5 shown as 29 is 28.5.
type numberForm struct {
	kind   formKind
	digits int    // of codeForm
	unit   string // that plainForm shows behind each number, see unitOf
}

type formKind byte

const (
	plainForm   formKind = iota
	dateForm             // a date, a time of day, or both: days since the epoch
	elapsedForm          // hours, minutes, seconds gone by, that do not end at 24 hours
	codeForm             // as many digits at the least, with zeros in front: 00123
)

// builtinForm is the form of a number format that has no code in the workbook,
// ECMA-376 part 1, 18.8.30. Those from 27 on are dates of East Asian languages.
func builtinForm(id int) numberForm {
	switch {
	case id == 46:
		return numberForm{kind: elapsedForm}
	case id >= 14 && id <= 22, id >= 27 && id <= 36, id == 45, id == 47, id >= 50 && id <= 58:
		return numberForm{kind: dateForm}
	}
	return numberForm{}
}

// maxForms is the most number formats, and styles of cells, a workbook may have;
// common spreadsheets allow fewer.
const maxForms = 1 << 16

// readForms reads the form of each style of cells, ECMA-376 part 1, 18.8.10.
func (w *workbook) readForms(ctx context.Context) ([]numberForm, error) {
	codes := map[int]numberForm{}
	var forms []numberForm
	part, err := w.helper(kindStyles)
	if err != nil {
		return nil, err
	}
	err = w.read(ctx, part, func(m *markup) error {
		switch {
		case m.is(opens, "numFmts", "numFmt"):
			if id, err := strconv.Atoi(m.attr("numFmtId")); err == nil {
				codes[id] = formOf(unescaped(m.attr("formatCode")))
			}
		case m.is(opens, "cellXfs", "xf"):
			id, _ := strconv.Atoi(m.attr("numFmtId")) // none is 0, general
			form, own := codes[id]
			if !own {
				form = builtinForm(id)
			}
			forms = append(forms, form)
		}
		if len(forms) > maxForms || len(codes) > maxForms {
			return w.fail(ErrTooLarge, saveAsTable, "it has more than %d styles", maxForms)
		}
		return nil
	})
	return forms, err
}

// formOf reads a format code, ECMA-376 part 1, 18.8.31: its first section, the one
// for positive numbers.
func formOf(code string) numberForm {
	c := formCode{rest: code}
	for c.step() {
	}
	letters := strings.ToLower(string(c.letters))
	for _, word := range [...]string{"general", "standard", "am/pm", "a/p"} {
		letters = strings.ReplaceAll(letters, word, "")
	}
	digits := strings.ContainsAny(seconds(letters), "0#?@")
	switch {
	case c.elapsed && !digits:
		return numberForm{kind: elapsedForm}
	case !digits && strings.ContainsAny(letters, "ymdhs"):
		return numberForm{kind: dateForm}
	case len(letters) > 1 && strings.Trim(letters, "0") == "" && code == string(c.letters):
		return numberForm{kind: codeForm, digits: len(letters)}
	}
	return numberForm{unit: unitOf(code)}
}

// seconds takes the fraction of seconds, such as .000, out of a code.
func seconds(code string) string {
	before, after, found := strings.Cut(code, "s.0")
	if !found {
		return code
	}
	return before + strings.TrimLeft(after, "0")
}

// formCode takes a format code apart.
type formCode struct {
	rest    string
	letters []byte // what is neither quoted nor in brackets
	elapsed bool
}

// step takes the next sign, and reports whether there is more.
func (c *formCode) step() bool {
	if c.rest == "" || c.rest[0] == ';' {
		return false
	}
	first := c.rest[0]
	c.rest = c.rest[1:]
	switch first {
	case '"':
		_, c.rest, _ = strings.Cut(c.rest, `"`)
	case '[':
		var inside string
		inside, c.rest, _ = strings.Cut(c.rest, "]")
		c.elapsed = c.elapsed || inside != "" && (strings.Trim(inside, "hH") == "" || strings.Trim(inside, "mM") == "" || strings.Trim(inside, "sS") == "")
	case '\\', '_', '*': // the next sign stands for itself, for a blank of its width, for filling
		c.rest = c.rest[min(1, len(c.rest)):]
	default:
		c.letters = append(c.letters, first)
	}
	return true
}
