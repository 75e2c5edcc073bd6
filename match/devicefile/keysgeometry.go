package devicefile

import (
	"lowsone/catalog/quantity"
	"lowsone/match/resistance"
)

// piece is one piece of an air path: the key that names its kind, and its
// sizes.
type piece struct {
	section
	kind string
	sizes
	build builder
}

// sizes are what pieces of all kinds are described by.
type sizes struct {
	section
	name     placed[string]
	opening  // the face or duct
	from, to opening
	open     placed[float64]
	edge     placed[resistance.Edge]
	gap      placed[quantity.Length]
	degrees  placed[float64]
	radius   placed[quantity.Length]
	flow     placed[quantity.Flow]
	pressure placed[quantity.Pressure]
	points   []point
	channels placed[float64]
	length   placed[quantity.Length]
	face     opening
	loss     placed[float64]
	source   placed[string]
	branches []branch
}

// opening is a rectangle or a circle.
type opening struct {
	section
	width, height, diameter placed[quantity.Length]
}

// branch is one of several paths side by side.
type branch struct {
	section
	pieces []piece
}

// edges lists the names of edges, by resistance.Edge.
var edges = []string{"sharp", "rounded"}

// kind makes an entry of one kind of piece.
func kind(name, about string, build builder, keys ...entry) entry {
	body := func() table {
		own := textLeaf("name", "of this piece", "front grille", func(s *sizes) *placed[string] { return &s.name })
		return table{name: name, entries: append([]entry{own}, keys...)}
	}
	return entry{name: name, about: about, body: body,
		read: func(r *reader, n *node, key Place, into any) {
			var s sizes
			before := r.count()
			if !r.part(name, n, key, body(), &s) {
				return
			}
			p := into.(*piece)
			p.kind, p.sizes = name, s
			if r.count() == before { // else what is wrong with it has been told
				p.build = build
			}
		}}
}

func pieceTable() table {
	return table{name: "piece", oneOf: true, entries: []entry{
		kind("grille", "a grille or perforated plate with air on both sides, or at an inlet", faced("grille", buildGrille), grilleKeys()...),
		kind("outlet_grille", "a grille through which the air leaves", faced("outlet_grille", buildOutletGrille), grilleKeys()...),
		kind("screen", "a screen of round wire", faced("screen", buildScreen), append(faceKeys(), openLeaf("55 %"), lengthLeaf("gap", "between two wires", "1 mm", func(s *sizes) *placed[quantity.Length] { return &s.gap }))...),
		kind("guard", "an open guard of bars or rings", faced("guard", buildGuard), append(faceKeys(), openLeaf("90 %"))...),
		kind("contraction", "a sudden narrowing", stepped("contraction", resistance.Contraction), fromTo()...),
		kind("expansion", "a sudden widening", stepped("expansion", resistance.Expansion), fromTo()...),
		kind("entrance", "still air enters a duct, sharp edge", faced("entrance", buildEntrance), faceKeys()...),
		kind("exit", "the air leaves a duct into the open", faced("exit", buildExit), faceKeys()...),
		kind("bend", "a bend in a duct, width in its plane; without a radius its corner is sharp", faced("bend", buildBend), bendKeys()...),
		kind("filter", "a filter: one point stated, or several measured", buildFilter, filterKeys()...),
		kind("fins", "channels between fins, through which all the air goes", buildFins, finKeys()...),
		kind("loss", "a loss coefficient of your own", faced("loss", buildLoss), lossKeys()...),
		kind("side_by_side", "branches that part and meet again", buildBranches,
			list("branches", "two or more", branchTable, func(s *sizes) *[]branch { return &s.branches }).needed()),
	}}
}

func branchTable() table {
	return table{name: "branch", entries: []entry{
		list("pieces", "in the order the air takes them", pieceTable, func(b *branch) *[]piece { return &b.pieces }).needed(),
	}}
}

func lengthLeaf[S any](name, about, example string, at func(*S) *placed[quantity.Length]) entry {
	return amountLeaf(name, about, example, "mm", 0.01, 10000, at)
}

// openingKeys are the sizes of a rectangle or a circle within S.
func openingKeys[S any](at func(*S) *opening) []entry {
	return []entry{
		lengthLeaf("width", "of the face or duct", "60 mm", func(s *S) *placed[quantity.Length] { return &at(s).width }),
		lengthLeaf("height", "of the face or duct", "60 mm", func(s *S) *placed[quantity.Length] { return &at(s).height }),
		lengthLeaf("diameter", "of a round one", "60 mm", func(s *S) *placed[quantity.Length] { return &at(s).diameter }).not("width", "a diameter is for what is round"),
	}
}

func faceKeys() []entry { return openingKeys(func(s *sizes) *opening { return &s.opening }) }

func openingTable() table {
	return table{name: "opening", entries: openingKeys(func(o *opening) *opening { return o })}
}

func fromTo() []entry {
	return []entry{
		part("from", "ahead", openingTable, func(s *sizes) *opening { return &s.from }).needed(),
		part("to", "behind", openingTable, func(s *sizes) *opening { return &s.to }).needed(),
	}
}

func openLeaf(example string) entry {
	return shareLeaf("open", "share of the face that is open", example, 1, 100, func(s *sizes) *placed[float64] { return &s.open }).needed()
}

func grilleKeys() []entry {
	return append(faceKeys(), openLeaf("55 %"),
		choiceLeaf("edge", "of its holes or bars", edges, resistance.SharpEdge, func(s *sizes) *placed[resistance.Edge] { return &s.edge }))
}

func bendKeys() []entry {
	return append(faceKeys(),
		numberLeaf("degrees", "by which it turns the air", "90", 1, 180, func(s *sizes) *placed[float64] { return &s.degrees }).needed(),
		lengthLeaf("radius", "of its middle line", "60 mm", func(s *sizes) *placed[quantity.Length] { return &s.radius }))
}

func filterKeys() []entry {
	return append(faceKeys(),
		flowLeaf(func(s *sizes) *placed[quantity.Flow] { return &s.flow }),
		pressureLeaf("pressure", "across it at that flow", func(s *sizes) *placed[quantity.Pressure] { return &s.pressure }),
		list("points", "two or more pairs, measured", pointTable, func(s *sizes) *[]point { return &s.points }).not("flow", "keep the points that were measured"))
}

func finKeys() []entry {
	return []entry{
		countLeaf("channels", "between the fins", "14", 1, 10000, func(s *sizes) *placed[float64] { return &s.channels }).needed(),
		lengthLeaf("gap", "between two fins", "3 mm", func(s *sizes) *placed[quantity.Length] { return &s.gap }).needed(),
		lengthLeaf("height", "of the fins", "50 mm", func(s *sizes) *placed[quantity.Length] { return &s.height }).needed(),
		lengthLeaf("length", "along the air", "150 mm", func(s *sizes) *placed[quantity.Length] { return &s.length }).needed(),
		part("face", "of the duct before and behind", openingTable, func(s *sizes) *opening { return &s.face }).needed(),
	}
}

func lossKeys() []entry {
	return append(faceKeys(),
		numberLeaf("coefficient", "of ½·density·velocity², velocity = flow over the face", "1.2", 0, 10000, func(s *sizes) *placed[float64] { return &s.loss }).needed(),
		textLeaf("source", "where it comes from", "data sheet", func(s *sizes) *placed[string] { return &s.source }).needed())
}
