package gen

import "strings"

// defect is one row that must be rejected, and why.
type defect struct {
	header string // the column that is wrong; empty: the row as a whole
	cell   string // what stands there
	reason string
	fits   func(s *Spec) bool      // fans it is made from; nil: any
	mangle func([]string) []string // what else is done to the row; nil: nothing
	before func(s *Spec) bool      // placed before the first such fan instead of at its turn
}

// defects are the intended bad rows in the order they appear.
func defects() []defect {
	dc12 := func(s *Spec) bool { return s.VoltageV.Value == 12 && s.VoltageMinV.Known }
	of := func(m int) func(s *Spec) bool { return func(s *Spec) bool { return s.maker == &makers[m] } }
	return []defect{
		{header: "Luftmenge\nm³/h", cell: "0", reason: "airflow is zero"},
		{header: "Umin [V]", cell: "13,8", reason: "lowest voltage above highest", fits: dc12, mangle: setCell("Umax [V]", "7")},
		{header: "Abmessungen [mm]", cell: "60x6Ox25", reason: "frame unreadable: a letter O for a zero"},
		{header: "Geräusch dB(A)", cell: "0", reason: "level is zero"},
		{reason: "too few cells: the row breaks off", mangle: func(cells []string) []string { return cells[:17] }},
		{header: "Luftmenge\nm³/h", cell: "25 m³/h (42 CFM)", reason: "two units that contradict each other"},
		{header: "Luftmenge\nm³/h", cell: "#WERT!", reason: "airflow unreadable: a spreadsheet's error"},
		{header: "Bauart", cell: "Wasserpumpe", reason: "kind unreadable: not a fan"},
		{header: "stat. Druck Pa", cell: "siehe Diagramm", reason: "pressure unreadable"},
		{reason: "too many cells: a delimiter in a text without quotes", mangle: looseDelimiter},
		{header: "Nennspannung", cell: "12 W", reason: "voltage unreadable: wrong unit"},
		{header: "stat. Druck Pa", cell: "35 Pa (12 mmH2O)", reason: "two units that contradict each other"},
		{header: "Kennlinie (m³/h:Pa)", cell: "0:130; 10-95; 20:70; 48:0", reason: "curve unreadable: a pair without its colon"},
		{header: "Luftmenge\nm³/h", cell: "-24", reason: "airflow below zero"},
		{header: "Bauart", reason: "repeated header line", mangle: func([]string) []string { return headers() }},
		{header: "Kennlinie (m³/h:Pa)", cell: "0:130; 20:95; 15:60; 48:0", reason: "curve unreadable: the flow runs backwards"},
		{header: "Typ / type", reason: "no part: the heading of the AC fans", before: func(s *Spec) bool { return s.Supply == supplyAC && s.maker == &makers[veltriva] }, mangle: section("*** AC-Lüfter 115/230 V ***")},
		{header: "Abmessungen [mm]", cell: "rund, siehe Zeichnung", reason: "frame unreadable"},
		{header: "Luftmenge\nm³/h", cell: "25. Jun", reason: "airflow unreadable: a spreadsheet made a date of it"},
		{header: "Typ / type", reason: "no part: the heading of the blowers", before: of(marnfeld), mangle: section("*** Radiallüfter / blowers ***")},
		{header: "Typ / type", cell: "", reason: "no part"},
		{header: "Geräusch dB(A)", cell: "3,9", reason: "level of 3.9 without a unit: bels?", fits: of(harrowick)},
		{header: "Geräusch dB(A)", cell: "28 °C", reason: "level unreadable: wrong unit"},
		{header: "Bauart", reason: "kind unreadable: the cells stand one column too far left", mangle: shiftLeft},
		{header: "Typ / type", reason: "no part: the total line", before: func(*Spec) bool { return false }, mangle: total},
	}
}

func headers() []string {
	names := make([]string, len(columns))
	for i := range columns {
		names[i] = columns[i].header
	}
	return names
}

// at is the place of a column.
func at(header string) int {
	for i := range columns {
		if columns[i].header == header {
			return i
		}
	}
	panic("no column " + header)
}

func setCell(header, cell string) func([]string) []string {
	return func(cells []string) []string {
		cells[at(header)] = cell
		return cells
	}
}

func section(title string) func([]string) []string {
	return func(cells []string) []string {
		clear(cells)
		cells[0] = title
		return cells
	}
}

// total is the line a spreadsheet adds below a list.
func total(cells []string) []string {
	clear(cells)
	cells[at("Hersteller")], cells[at("Lagerbestand")] = "Summe Bestand", "98.412"
	return cells
}

// looseDelimiter splits the description in two cells, as an export without quotes does, and fills the last cell.
func looseDelimiter(cells []string) []string {
	cells[at("Bezeichnung / description")] = "Lüfter Sonderposten"
	cells[at("Bemerkung")] = "Kabel gekürzt"
	return append(cells, "Enden verzinnt")
}

// shiftLeft drops the kind: every later cell moves one column to the left, an empty one follows.
func shiftLeft(cells []string) []string {
	i := at("Bauart")
	return append(append(cells[:i:i], cells[i+1:]...), "")
}

// oldPart is the part number of a bad row: no good fan has it.
func oldPart(part string) string { return strings.TrimSpace(part) + "-alt" }
