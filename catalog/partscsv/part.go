package partscsv

import (
	"fmt"
	"strconv"
	"strings"

	"lowsone/catalog"
)

// partFallback makes an article, reference or order number the part where no
// other column names one, and gives the order code to the next. Of several that
// column is taken whose cells look most like part numbers. Since the choice may
// be wrong, it is told together with the option that mends it.
func (b *builder) partFallback() {
	part := b.columnOf(catalog.FieldPart)
	if b.off[catalog.FieldPart] || part != nil && (part.proof || part.how == ByName || part.how == ByForce) {
		return
	}
	list := b.partLike()
	best, second := b.mostLikePart(list)
	switch {
	case part == nil && best == nil:
		return
	case part == nil:
	case best == nil || best.likeness-b.likePart(part) < clearlyLiker:
		return // a word of several meanings, but none for an order code
	default:
		second = &partGuess{guess{column: part}, b.likePart(part)}
		part.taken = false
	}
	b.makePart(best, second)
	b.guessAll()
}

// partGuess is a column that may be the part where no other is.
type partGuess struct {
	guess
	likeness float64
}

// clearlyLiker is by how much more of one column's cells must look like part
// numbers for the cells to decide, see likePart.
const clearlyLiker = 0.75

// partLike lists the columns that may be the part where no other column is, the
// surest by their headers first.
func (b *builder) partLike() []partGuess {
	var list []partGuess
	guesses := b.guesses(func(c *column, id catalog.FieldID) bool {
		return id == catalog.FieldPart && (!c.taken || c.how != ByForce && c.how != ByName &&
			(c.field == catalog.FieldOrderCode || c.field == catalog.FieldDescription))
	})
	for _, g := range guesses {
		if g.score >= enoughPart {
			list = append(list, partGuess{g, b.likePart(g.column)})
		}
	}
	return list
}

// mostLikePart gives the column whose cells look most like part numbers, and the
// one beside it. Only columns named by a word for an order code compete: a
// description looks like anything. Where the cells do not decide, the header
// does.
func (b *builder) mostLikePart(list []partGuess) (best, second *partGuess) {
	for i := range list {
		g := &list[i]
		switch {
		case best == nil:
			best = g
		case g.order && best.order && g.likeness-best.likeness >= clearlyLiker:
			best, second = g, best
		case second == nil || g.order && !second.order:
			second = g
		}
	}
	return best, second
}

// makePart takes a column as the part and says why, and what to write where
// another one is.
func (b *builder) makePart(best, second *partGuess) {
	c := best.column
	c.taken = false
	b.accept(best.guess)
	c.how, c.why = ByRest, best.why+"; no other column is the part"
	if second == nil {
		c.notes = append(c.notes, "taken as the part, as no other column is; if one is: --column part=HEADER")
		return
	}
	other := strconv.Quote(second.column.header.text)
	mend := "--column part=" + ShellQuoted(second.column.header.text)
	if best.likeness-second.likeness >= clearlyLiker {
		c.how = ByCells
		c.why = fmt.Sprintf("%s; its cells look more like part numbers than those of %s", best.why, other)
		c.notes = append(c.notes, fmt.Sprintf("taken as the part, since its cells look more like part numbers of a maker than those of %s; if it is the other: %s", other, mend))
		return
	}
	c.why += ", and the cells do not tell it from " + other
	c.notes = append(c.notes, fmt.Sprintf("taken as the part by a close decision, as no header says which column is; if it is %s: %s", other, mend))
}

// likePart says how far the cells of a column look like a maker's part numbers,
// rather than a shop's running numbers (common practice): a part number has
// letters that vary, forms that vary, and the size or voltage of its row; a
// running number has one prefix and digits that count on. It lies between -2
// and 4.
func (b *builder) likePart(c *column) float64 {
	n := partNumbers{forms: map[string]int{}, letters: map[string]bool{}}
	width, voltage := b.columnOf(catalog.FieldWidth), b.columnOf(catalog.FieldVoltage)
	for _, row := range b.in.Sample {
		if c.index >= len(row) {
			continue
		}
		text := normalise(row[c.index])
		if b.lexicon.isUnknown(text) {
			continue
		}
		n.add(text)
		mm, okSize := b.firstNumber(width, row, 1000)
		volts, okVolts := b.firstNumber(voltage, row, 1)
		if okSize && holdsSize(text, mm) {
			n.sized++
		}
		if okVolts && holdsSize(text, volts) {
			n.volts++
		}
	}
	return n.likeness()
}

// firstNumber gives the first value of a column in a row, times factor, as a
// whole number.
func (b *builder) firstNumber(c *column, row []string, factor float64) (int, bool) {
	if c == nil || c.index >= len(row) || b.reader.take(c, row[c.index]) != "" {
		// Without a unit a size is in mm and a voltage in V, as is usual.
		if c == nil || c.index >= len(row) || len(b.reader.cell.statements) == 0 || b.reader.cell.fault != "" {
			return 0, false
		}
		return int(b.reader.cell.statements[0].high + 0.5), true
	}
	return int(b.reader.sorted.values[0].high*factor + 0.5), true
}

// partNumbers is what the cells of a column that may be the part look like.
type partNumbers struct {
	known   int
	sized   int // that hold the size of their row
	volts   int // that hold its voltage
	bare    int // that are digits alone
	forms   map[string]int
	letters map[string]bool
	numbers []partNumber
}

// partNumber is the form of a cell and its digits as one number.
type partNumber struct {
	form   string
	number float64
}

// add takes in one cell.
func (n *partNumbers) add(text string) {
	var form, letters strings.Builder
	number := 0.0
	for _, r := range text {
		switch {
		case r >= '0' && r <= '9':
			number = 10*number + float64(r-'0')
			form.WriteByte('0')
		default:
			form.WriteRune(r)
			letters.WriteRune(r)
		}
	}
	n.known++
	n.forms[form.String()]++
	n.letters[letters.String()] = true
	n.numbers = append(n.numbers, partNumber{form.String(), number})
	if strings.Trim(letters.String(), " .-/") == "" {
		n.bare++
	}
}

// likeness weighs what was counted.
func (n *partNumbers) likeness() float64 {
	if n.known == 0 {
		return 0
	}
	share := func(count int) float64 { return float64(count) / float64(n.known) }
	like := 2*share(n.sized) + share(n.volts)/2 + share(len(n.forms)) + share(len(n.letters)) - share(n.bare)
	if n.counts() {
		like--
	}
	return like
}

// counts says whether the cells are of one form and their numbers count on: the
// steps between them are few.
func (n *partNumbers) counts() bool {
	form, most := "", 0
	for f, count := range n.forms {
		if count > most || count == most && f < form {
			form, most = f, count
		}
	}
	if 5*most < 4*n.known || most < 2 {
		return false
	}
	low, high := 0.0, 0.0
	first := true
	for _, p := range n.numbers {
		if p.form != form {
			continue
		}
		if first {
			low, high, first = p.number, p.number, false
		}
		low, high = min(low, p.number), max(high, p.number)
	}
	const widestStep = 20
	return high-low <= widestStep*float64(most)
}

// holdsSize says whether digits of a text are a size, alone or with the two of a
// depth behind them: 80 in "AV80-25" and in "8025".
func holdsSize(text string, size int) bool {
	want := strconv.Itoa(size)
	for i := 0; i < len(text); {
		if !isDigit(text[i]) {
			i++
			continue
		}
		end := i
		for end < len(text) && isDigit(text[end]) {
			end++
		}
		rest, ok := strings.CutPrefix(text[i:end], want)
		if ok && (rest == "" || len(rest) == 2) {
			return true
		}
		i = end
	}
	return false
}
