package gen

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// frame is the product cell in the maker's spelling. Harrowick gives part of its sizes in fractions of an inch, which is within 0.7 mm.
func (h *hand) frame() string {
	w, t, d := comma(h.s.WidthMM.Value, -1), comma(h.s.HeightMM.Value, -1), comma(h.s.DepthMM.Value, -1)
	join := func(between, after string) string { return w + between + t + between + d + after }
	switch h.s.maker {
	case &makers[nordwehe]:
		return join(" × ", " mm")
	case &makers[quelmar]:
		return h.pick(join("*", ""), join("x", "mm"))
	case &makers[veltriva]:
		return join(" x ", "")
	case &makers[tsurukaze]:
		if w == t {
			return "□" + w + "×" + d
		}
		return join("×", "")
	case &makers[ombrasco]:
		return h.pick(join("x", ""), join("X", ""), join(" x ", " mm"))
	case &makers[marnfeld]:
		return join(" × ", "")
	case &makers[harrowick]:
		if inch, ok := inches(h.s); ok {
			return inch
		}
		return join(" x ", " mm")
	case &makers[lenzkamp]:
		return join(" x ", " mm")
	}
	return join("x", "")
}

// inches is the frame in fractions of an inch for the sizes that are commonly printed so.
func inches(s *Spec) (string, bool) {
	side := map[float64]string{80: `3 1/8"`, 92: `3 5/8"`, 119: `4 11/16"`}[s.WidthMM.Value]
	depth := map[float64]string{25: `1"`, 38: `1 1/2"`}[s.DepthMM.Value]
	return side + " x " + side + " x " + depth, side != "" && depth != "" && s.WidthMM == s.HeightMM
}

// rangeInCell tells whether this row writes its voltage range into the voltage cell: all of Harrowick's and Marnfeld's, by habit.
func (h *hand) rangeInCell() bool {
	m := h.s.maker
	return h.s.VoltageMinV.Known && (m == &makers[harrowick] || m == &makers[marnfeld])
}

func (h *hand) voltage() string {
	v := comma(h.s.VoltageV.Value, -1)
	if h.rangeInCell() {
		return fmt.Sprintf("%s (%s–%s)", v, comma(h.s.VoltageMinV.Value, -1), comma(h.s.VoltageMaxV.Value, -1))
	}
	supply := strings.ToUpper(h.s.Supply)
	switch h.s.maker {
	case &makers[nordwehe]:
		return v + " V " + supply
	case &makers[quelmar]:
		return supply + v + "V"
	case &makers[tsurukaze]:
		return v + "V" + supply
	case &makers[veltriva]:
		return v + map[string]string{supplyAC: " V~", supplyDC: " V"}[h.s.Supply]
	case &makers[ombrasco]:
		return v + h.pick("", " V", "V")
	}
	return v
}

func (h *hand) rangeEnd(n Number) string {
	if h.rangeInCell() {
		return ""
	}
	return h.number(n)
}

// current comes from another program: its column has decimal points, which its own cells prove (0.085). Quelmar gives milliamperes.
func (h *hand) current() string {
	a := h.s.CurrentA.Value
	if h.s.maker == &makers[quelmar] && a < 1 {
		return strconv.FormatFloat(math.Round(a*1000), 'f', -1, 64) + " mA"
	}
	return strconv.FormatFloat(a, 'f', -1, 64)
}
