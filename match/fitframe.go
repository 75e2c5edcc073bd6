package match

import (
	"math"

	"lowsone/catalog"
)

// usualPitch lists the hole pitches of square axial frames, in mm (SEEN in
// open fan drawings, testdata/sources/fit_frames.csv). 70 mm and 140 mm frames
// come with two pitches each and are left out: one must ask.
var usualPitch = []struct{ frame, pitch float64 }{
	{25, 20}, {30, 24}, {40, 32}, {50, 40}, {60, 50}, {80, 71.5}, {92, 82.5}, {120, 105},
}

// UsualPitch gives the usual hole pitch in m of a square axial frame of a usual
// width in m; false for any other width.
func UsualPitch(width float64) (float64, bool) {
	for _, u := range usualPitch {
		if catalog.SameFrame(width, u.frame*1e-3) {
			return u.pitch * 1e-3, true
		}
	}
	return 0, false
}

// frame checks the hole pitch, which decides, and the frame.
func (f *fit) frame(c *catalog.Columns, i int) (catalog.Verdict, note) {
	pitch := c.Number(catalog.FieldHolePitch, i)
	if !math.IsNaN(pitch) && !math.IsNaN(f.pitch) {
		return f.byPitch(c, i, pitch)
	}
	if math.IsNaN(f.width) && math.IsNaN(f.pitch) {
		return catalog.Unclear, note{format: "frame of the seat not known", asks: AskFrame}
	}
	if math.IsNaN(f.width) {
		return catalog.Unclear, note{format: "hole pitch not stated, the seat has # mm", a: f.pitch * 1e3}
	}
	w, h := c.Number(catalog.FieldWidth, i), c.Number(catalog.FieldHeight, i)
	switch c.FrameIs(i, f.width, f.seatHeight()) {
	case catalog.Unclear:
		return catalog.Unclear, note{format: "frame not stated"}
	case catalog.Fail:
		return catalog.Fail, note{format: "frame # × # mm, the seat has # mm", a: w * 1e3, b: h * 1e3, c: f.width * 1e3}
	}
	return f.byFrame(c, i, w, h)
}

// byPitch judges two known pitches. One may be stated as the diagonal.
func (f *fit) byPitch(c *catalog.Columns, i int, pitch float64) (catalog.Verdict, note) {
	switch {
	case catalog.Same(pitch, f.pitch):
		w := c.Number(catalog.FieldWidth, i)
		if !math.IsNaN(w) && !math.IsNaN(f.width) && c.FrameIs(i, f.width, f.seatHeight()) == catalog.Fail {
			if room := orNaN(f.seat.SpaceWidth); !math.IsNaN(room) {
				return f.inSpace(c, i, w, room)
			}
			return catalog.Warn, note{format: "holes fit (# mm), but the frame is # mm, not # mm: check the space", a: pitch * 1e3, b: w * 1e3, c: f.width * 1e3}
		}
		return catalog.Pass, note{}
	case catalog.Same(pitch, f.pitch*math.Sqrt2), catalog.Same(pitch*math.Sqrt2, f.pitch):
		return catalog.Pass, note{format: "hole pitch # mm against # mm: one is the diagonal", a: pitch * 1e3, b: f.pitch * 1e3}
	}
	return catalog.Fail, note{format: "hole pitch # mm, the seat has # mm", a: pitch * 1e3, b: f.pitch * 1e3}
}

// inSpace judges a frame of another size whose holes fit, against the room.
func (f *fit) inSpace(c *catalog.Columns, i int, w, room float64) (catalog.Verdict, note) {
	h := c.Number(catalog.FieldHeight, i)
	if w <= room && !(h > orNaN(f.seat.SpaceHeight)) {
		return catalog.Pass, note{format: "frame # mm in a space of # mm", a: w * 1e3, b: room * 1e3}
	}
	return catalog.Fail, note{format: "frame # × # mm, the space has # mm", a: w * 1e3, b: h * 1e3, c: room * 1e3}
}

// byFrame judges equal frames of which one pitch or both are not stated.
func (f *fit) byFrame(c *catalog.Columns, i int, w, h float64) (catalog.Verdict, note) {
	if k := catalog.Kind(c.Code(catalog.FieldKind, i)); k == catalog.Centrifugal || k == catalog.Crossflow || !catalog.Same(w, h) {
		return catalog.Unclear, note{format: "frames equal; mounting holes of such fans differ: compare the drawings"}
	}
	usual, ok := UsualPitch(w)
	if !ok {
		return catalog.Unclear, note{format: "frames equal; # mm frames have no single hole pitch: ask for it", a: w * 1e3}
	}
	stated := f.pitch
	if math.IsNaN(stated) {
		stated = c.Number(catalog.FieldHolePitch, i)
	}
	if !math.IsNaN(stated) && !catalog.Same(stated, usual) {
		return catalog.Unclear, note{format: "frames equal, but one pitch is # mm where # mm is usual: ask", a: stated * 1e3, b: usual * 1e3}
	}
	return catalog.Pass, note{format: "by frame, common practice"}
}

func (f *fit) seatHeight() float64 {
	if math.IsNaN(f.height) {
		return f.width
	}
	return f.height
}
