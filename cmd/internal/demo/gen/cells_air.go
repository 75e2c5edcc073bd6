package gen

import (
	"math"
	"strings"
)

// airflow in other units keeps the value to half a unit of its last digit: 0.1 CFM, 0.001 m³/min, 0.1 l/s. A range has the value as low end.
func (h *hand) airflow() string {
	if !h.s.AirflowM3h.Known {
		return h.unknown()
	}
	q := h.s.AirflowM3h.Value
	cfm := comma(q/1.69901082, 1) + " CFM"
	share := h.share()
	switch h.s.maker {
	case &makers[harrowick]:
		if share < 0.5 {
			return cfm
		}
		return comma(q, -1) + " m³/h (" + cfm + ")"
	case &makers[tsurukaze]:
		if share < 0.3 {
			return comma(q/60, 3) + " m³/min"
		}
	case &makers[veltriva]:
		if share < 0.08 {
			return comma(q/3.6, 1) + " l/s"
		}
	case &makers[nordwehe]:
		return comma(q, -1) + " m³/h"
	case &makers[ombrasco]:
		if share < 0.15 {
			return comma(q, -1) + "–" + comma(math.Round(q*11.5)/10, -1)
		}
	}
	return comma(q, -1)
}

// pressure in other units keeps the value to half a unit of its last digit: 0.01 mmH₂O, 0.001 inH₂O.
func (h *hand) pressure() string {
	if !h.s.StaticPressurePa.Known {
		return h.unknown()
	}
	p := h.s.StaticPressurePa.Value
	share := h.share()
	switch h.s.maker {
	case &makers[harrowick]:
		return comma(p/249.08891, 3) + " inH2O"
	case &makers[quelmar]:
		if share < 0.5 {
			return comma(p/9.80665, 2) + " mmH2O"
		}
	case &makers[tsurukaze]:
		if share < 0.3 {
			return comma(p, -1) + " Pa (" + comma(p/9.80665, 2) + " mmH₂O)"
		}
	case &makers[nordwehe], &makers[lenzkamp]:
		return comma(p, -1) + " Pa"
	}
	return comma(p, -1)
}

func (h *hand) speed() string {
	if !h.s.SpeedRPM.Known {
		return h.unknown()
	}
	n := h.s.SpeedRPM.Value
	plain := comma(n, -1)
	switch share := h.share(); {
	case h.s.maker == &makers[veltriva] || h.s.maker == &makers[lenzkamp]:
		return thousands(n)
	case h.s.maker == &makers[tsurukaze] && share < 0.25:
		return plain + " ±10 %"
	case h.s.maker == &makers[quelmar] && share < 0.3:
		return plain + " rpm"
	}
	return plain
}

// noise: sound power in decibels with its word (Marnfeld), in bels (Harrowick), else a level; a range has the value as high end.
func (h *hand) noise() string {
	if !h.s.NoiseDBA.Known {
		return h.unknown()
	}
	l := h.s.NoiseDBA.Value
	plain := comma(l, -1)
	share := h.share()
	switch h.s.maker {
	case &makers[marnfeld]:
		return h.pick("LwA "+plain, plain+" dB(A) LwA")
	case &makers[harrowick]:
		return comma(l/10, 1) + h.pick(" bel", " B", " bel LwA")
	case &makers[nordwehe]:
		return plain + " dB(A)"
	case &makers[ombrasco], &makers[quelmar]:
		if share < 0.08 {
			return comma(l-4, -1) + "–" + plain
		}
		if share < 0.3 {
			return plain + " dBA"
		}
	}
	return plain
}

func (h *hand) curve() string {
	pairs := make([]string, len(h.s.Curve))
	for i, p := range h.s.Curve {
		pairs[i] = comma(p.FlowM3h, -1) + ":" + comma(p.PressurePa, -1)
	}
	return strings.Join(pairs, "; ")
}

// octaveColumn holds the level of octave i: empty in most rows, a dash where it alone is missing. It draws no random numbers, so the cells
// of a row are the same with and without it.
func octaveColumn(i int) column {
	return column{"Oktavpegel " + octaves[i] + " [dB]", func(h *hand) string {
		all := &h.s.OctavesDB
		switch {
		case all[i].Known:
			return comma(all[i].Value, -1)
		case i > 0 && i < numOctaves-1 && all[i-1].Known && all[i+1].Known:
			return "-"
		}
		return ""
	}}
}
