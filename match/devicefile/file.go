package devicefile

import (
	"errors"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// Described is the part name of a fitted fan that the file describes without a
// name.
const Described = "fitted fan"

// File is a device file that was read without a problem.
type File struct {
	// Device is what the file says. Until Resolve, a path whose fan is in the
	// catalogue has only what the file itself says of fan and seat.
	Device match.Device
	// Fans holds what the file says of the fitted fan of each path.
	Fans []Fan

	text    *text
	doc     *document
	spectra map[*acoustics.Thirds]spectrum // where those of the device come from
}

// Fan is what a device file says of a fitted fan.
type Fan struct {
	Part   string  // PART or MAKER/PART of the catalogue; empty where the fan is described only
	Name   string  // on the label of a fan that is described only
	Values []Value // in the order of the file
}

// Value is a field of a fan with its value.
type Value struct {
	Field *catalog.Field
	Value catalog.Value
}

// Overrule gives a copy of the fan of the catalogue with the values of the file,
// or, for nil, the fan the file describes. Airflow or pressure of the file take
// the place of a curve of the catalogue.
func (f Fan) Overrule(of *catalog.Fan) *catalog.Fan {
	fan := catalog.Fan{Part: Described}
	if f.Name != "" {
		fan.Part = f.Name
	}
	if of != nil {
		fan = *of
	}
	if f.DropsCurve() {
		fan.Curve = nil
	}
	for _, v := range f.Values {
		v.Field.Put(&fan, v.Value, quantity.Cell)
	}
	if fan.Width.Known() && !fan.Height.Known() {
		fan.Height = fan.Width
	}
	fan.FillFromCurve()
	return &fan
}

// DropsCurve says whether the file gives ends of the fan's curve, so that a
// curve of the catalogue is not used.
func (f Fan) DropsCurve() bool {
	return (f.has(catalog.FieldAirflow) || f.has(catalog.FieldStaticPressure)) && !f.has(catalog.FieldCurve)
}

func (f Fan) has(id catalog.FieldID) bool {
	for _, v := range f.Values {
		if v.Field.ID == id {
			return true
		}
	}
	return false
}

// Look finds a fan of the catalogue and its row by PART or MAKER/PART.
type Look func(part string) (row int, fan *catalog.Fan, err error)

// Resolve looks up the fans that the catalogue holds, completes their seats with
// what the fans tell, and checks what the file says against them. The error is an
// *Error, which wraps what look returned.
func (f *File) Resolve(look Look) error {
	found := problems{text: f.text}
	for i := range f.Fans {
		part := f.Fans[i].Part
		if part == "" {
			continue
		}
		row, fan, err := look(part)
		if err != nil {
			found.add(Problem{At: f.doc.paths[i].fan.part.at, Reason: err.Error(), Hint: hintOf(err), Err: err})
			continue
		}
		f.fit(i, row, fan)
		checkFitted(&found, &f.doc.paths[i], &f.Device.Paths[i])
	}
	return found.err()
}

// fit puts a fan into a path: its row, and what it tells of the seat.
func (f *File) fit(i, row int, fan *catalog.Fan) {
	path := &f.Device.Paths[i]
	path.Fitted, path.Row = f.Fans[i].Overrule(fan), row
	path.Seat = completed(f.doc.paths[i].seat(), path.Fitted)
}

// hintOf gives the mend that an error of a lookup names.
func hintOf(err error) string {
	var hinted interface{ Hint() string }
	if errors.As(err, &hinted) {
		return hinted.Hint()
	}
	return ""
}
