package gen

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
)

// hand writes the cells of one row. Every row has its own random numbers, so a row repeats exactly.
type hand struct {
	rng *rand.Rand
	s   *Spec
	pos int
}

// column is one column of the untidy list.
type column struct {
	header string
	cell   func(h *hand) string
}

// columns are the untidy list's, in order. Those marked extra are none of the tool's fields.
var columns = [...]column{
	{"Pos.", func(h *hand) string { return strconv.Itoa(h.pos) }}, // extra
	{"Bestell-Nr.", func(h *hand) string { return h.s.OrderCode }},
	{"Hersteller", func(h *hand) string { return h.s.Maker }},
	{"Typ / type", func(h *hand) string { return h.s.Part }},
	{"Bauart", func(h *hand) string { return h.s.maker.kindWord(h.s.Kind) }},
	{"Abmessungen [mm]", (*hand).frame},
	{"Lochabstand mm", func(h *hand) string { return h.number(h.s.HolePitchMM) }},
	{"Nennspannung", (*hand).voltage},
	{"Umin [V]", func(h *hand) string { return h.rangeEnd(h.s.VoltageMinV) }},
	{"Umax [V]", func(h *hand) string { return h.rangeEnd(h.s.VoltageMaxV) }},
	{"AC/DC", func(h *hand) string { return strings.ToUpper(h.s.Supply) }},
	{"Frequenz Hz", func(h *hand) string { return h.number(h.s.FrequencyHz) }},
	{"Strom [A]", (*hand).current},
	{"Leistung (W)", func(h *hand) string { return h.unit(h.s.PowerW, " W", 0.1) }},
	{"Luftmenge\nm³/h", (*hand).airflow},
	{"stat. Druck Pa", (*hand).pressure},
	{"Drehzahl 1/min", (*hand).speed},
	{"Geräusch dB(A)", (*hand).noise},
	{"Messabstand [m]", func(h *hand) string { return h.unit(h.s.NoiseDistanceM, " m", 0.2) }},
	octaveColumn(0), octaveColumn(1), octaveColumn(2), octaveColumn(3), octaveColumn(4), octaveColumn(5), octaveColumn(6), octaveColumn(7),
	{"Kennlinie (m³/h:Pa)", (*hand).curve},
	{"Adern / leads", (*hand).leads},
	{"Stecker / connector", func(h *hand) string { return h.s.Connector }},
	{"Tacho Imp./U", (*hand).tach},
	{"PWM", (*hand).pwm},
	{"Anlaufspannung V", func(h *hand) string { return h.number(h.s.StartVoltageV) }},
	{"Flügel", func(h *hand) string { return h.number(h.s.Blades) }},
	{"Lagerung / bearing", func(h *hand) string { return h.s.Bearing }},
	{"Lebensdauer [h]", (*hand).life},
	{"Lebensdauer bei °C", func(h *hand) string { return h.number(h.s.LifeTempC) }},
	{"Umgebungstemp. max. °C", (*hand).temperature},
	{"Garantie (Monate)", func(h *hand) string { return h.s.maker.warranty }}, // extra
	{"Zolltarif-Nr.", func(h *hand) string { return h.s.maker.customs }},      // extra
	{"VPE", (*hand).pack},                                                     // extra
	{"Gewicht g", (*hand).weight},                                             // extra
	{"Lieferant", func(h *hand) string { return h.s.Supplier }},
	{"Lagerbestand", (*hand).stock}, // in German Lager is both bearing and stock
	{"Preis netto", (*hand).price},
	{"Währung", func(h *hand) string { return h.s.Currency }},
	{"Bezeichnung / description", func(h *hand) string { return h.s.Description }},
	{"Bemerkung", (*hand).remark}, // extra
}

func (h *hand) share() float64 { return h.rng.Float64() }

func (h *hand) pick(words ...string) string { return words[h.rng.IntN(len(words))] }

// unknown is an empty cell or one of the trade's words for unknown.
func (h *hand) unknown() string {
	return h.pick("", "", "", "-", "n/a", "k. A.", "tbd", "on request")
}

// comma writes a number with a decimal comma.
func comma(v float64, digits int) string {
	return strings.Replace(strconv.FormatFloat(v, 'f', digits, 64), ".", ",", 1)
}

// thousands writes a whole number with the German point between thousands: 70000 → "70.000".
func thousands(v float64) string {
	text := strconv.FormatFloat(v, 'f', 0, 64)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "." + text[i:]
	}
	return text
}

// number is the plain cell: decimal comma, mostly empty where unknown.
func (h *hand) number(n Number) string {
	if !n.Known {
		return h.pick("", "", "", "", "-")
	}
	return comma(n.Value, -1)
}

// unit is a number that carries its unit in some rows.
func (h *hand) unit(n Number, unit string, often float64) string {
	if n.Known && h.share() < often {
		return comma(n.Value, -1) + unit
	}
	return h.number(n)
}

func (h *hand) leads() string {
	n := comma(h.s.Leads.Value, -1)
	if word := h.s.maker.lead3; word != "3" {
		return n + strings.TrimPrefix(word, "3")
	}
	return n
}

func (h *hand) tach() string {
	switch {
	case h.s.alarm:
		return "Alarm"
	case h.s.TachPerRev.Known && h.share() < 0.3:
		return comma(h.s.TachPerRev.Value, -1) + " Imp./U"
	}
	return h.number(h.s.TachPerRev)
}

func (h *hand) pwm() string {
	switch h.s.PWM {
	case "yes":
		return h.pick("ja", "ja", "yes")
	case "no":
		return h.pick("nein", "nein", "no")
	}
	return h.pick("", "-")
}

func (h *hand) life() string {
	switch {
	case !h.s.LifeH.Known:
		return h.pick("", "k. A.")
	case h.s.maker == &makers[ombrasco]:
		return comma(h.s.LifeH.Value, -1)
	case h.share() < 0.2:
		return thousands(h.s.LifeH.Value) + " h"
	}
	return thousands(h.s.LifeH.Value)
}

func (h *hand) temperature() string {
	if h.s.TempMaxC.Known && h.s.maker == &makers[tsurukaze] && h.share() < 0.4 {
		return "-10…+" + comma(h.s.TempMaxC.Value, -1) + " °C"
	}
	return h.unit(h.s.TempMaxC, " °C", 0.1)
}

func (h *hand) pack() string {
	switch w := h.s.WidthMM.Value; {
	case w <= 40:
		return h.pick("50", "100")
	case w <= 60:
		return h.pick("10", "50")
	case w <= 92:
		return "20"
	}
	return h.pick("1", "10")
}

// weight from the housing's volume: about 0.75 g/cm³ in plastic, 1.0 with an AC motor in metal (common practice).
func (h *hand) weight() string {
	density := 0.75
	if h.s.Supply == supplyAC {
		density = 1
	}
	cm3 := h.s.WidthMM.Value * h.s.HeightMM.Value * h.s.DepthMM.Value / 1000
	return strconv.FormatFloat(math.Round(cm3*density), 'f', 0, 64)
}

func (h *hand) stock() string {
	if !h.s.Stock.Known {
		return h.pick("", "", "k. A.", "tbd")
	}
	return thousands(h.s.Stock.Value)
}

func (h *hand) price() string {
	if !h.s.Price.Known {
		return h.pick("auf Anfrage", "on request", "", "-")
	}
	p := comma(h.s.Price.Value, 2)
	switch share := h.share(); {
	case share < 0.12 && h.s.Currency == "EUR":
		return p + " €"
	case share < 0.12:
		return p + " USD"
	}
	return p
}

func (h *hand) remark() string {
	switch share := h.share(); {
	case share < 0.03:
		return "Auslauf, nur solange Vorrat"
	case share < 0.05:
		return "+10 % Rabatt ab 100 Stk."
	case share < 0.065:
		return "=> Nachfolger auf Anfrage"
	case share < 0.09:
		return "Kabel 300 mm; Enden verzinnt"
	case share < 0.11:
		return "Muster im Regal\n(nicht verkaufen)"
	}
	return ""
}
