package view

import (
	"io"

	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/vbauerster/cupwriter"
)

// Style says what the output can show.
type Style struct {
	Width    int  // columns of characters; 0: no limit
	Terminal bool // a person watches
	Colour   bool
	// Cautioned: the caution stands above already, in the same output.
	Cautioned bool
}

// StyleOf finds the style for a stream. Colours are for terminals, and off
// where NO_COLOR is set to anything or TERM is "dumb". Lines and signs are one
// column wide in every locale: equal input gives equal output.
func StyleOf(width int, terminal bool, getenv func(string) string) Style {
	text.OverrideRuneWidthEastAsianWidth(false)
	colour := terminal && getenv("NO_COLOR") == "" && getenv("TERM") != "dumb"
	return Style{Width: width, Terminal: terminal, Colour: colour}
}

// Terminal says whether a stream is a terminal, and how many columns it has; 0
// where it does not say.
func Terminal(stream io.Writer) (width int, ok bool) {
	w := cupwriter.New(stream, false)
	if !w.IsTerminal() {
		return 0, false
	}
	width, _, err := w.GetTermSize()
	if err != nil || width < 1 {
		return 0, true
	}
	return width, true
}

// Bold makes text stand out.
func (s Style) Bold(text string) string { return s.sgr("1", text) }

// Faint makes text stand back.
func (s Style) Faint(text string) string { return s.sgr("2", text) }

func (s Style) sgr(code, text string) string {
	if !s.Colour || text == "" {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}
