package devicefile

import (
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
	"lowsone/match/thermal"
)

func pathTable() table {
	return table{name: "path", entries: []entry{
		textLeaf("name", "of the path, where there are several", "left tunnel", func(p *path) *placed[string] { return &p.name }),
		part("fan", "the fan that sits there: in the catalogue, or described as on its label; what is written here overrules the catalogue", fanTable, func(p *path) *fan { return &p.fan }).needed(),
		countLeaf("fans", "how many such fans move this air", "2", 1, 50, func(p *path) *placed[float64] { return &p.fans }),
		leaf("arrangement", "several fans: side by side, or one behind the other", arrangements[0], form{kind: formChoice, words: arrangements},
			mended(parseArrangement, "parallel is side by side, series one behind the other"), func(p *path) *placed[arrangement] { return &p.arrangement }),
		choiceLeaf("regulated", "who changes its speed with the temperature: no one, a thermistor in the fan, the device", match.Regulators, match.RegulatedNot,
			func(p *path) *placed[match.Regulator] { return &p.regulated }),
		speedLeaf("speed", "of the fan while you measured", "5400 rpm", func(p *path) *placed[match.Speed] { return &p.speed }),
		choiceLeaf("direction", "into the device or out of it, found with a strip of paper", match.Directions, match.BlowsIn, func(p *path) *placed[match.Direction] { return &p.direction }),
		choiceLeaf("mount", "screwed hard to metal, or on soft rubber", match.Mounts, match.MountHard, func(p *path) *placed[match.Mount] { return &p.mount }),
		choiceLeaf("shaft", "how the axis lies", match.Shafts, match.ShaftLevel, func(p *path) *placed[match.Shaft] { return &p.shaft }),
		yesLeaf("clean", "filter, grilles and fins were free of dirt while you measured", "yes", func(p *path) *placed[bool] { return &p.clean }),
		amountLeaf("listener", "from this fan to where people sit, if that is not the device's", "1.2 m", "m", nearest, farthest,
			func(p *path) *placed[quantity.Length] { return &p.listener }),
		choiceLeaf("slow_by", "how the device, or you, can slow the fan; voltage is by a linear regulator, which takes 2 V for itself; any is by whatever means, down to the speed at which it still starts", match.SlowWays, match.SlowAny, func(p *path) *placed[match.SlowBy] { return &p.slowBy }),
		part("space", "the room there is for a fan", spaceTable, func(p *path) *space { return &p.space }),
		part("supply", "what the plug gives, measured there", supplyTable, func(p *path) *supply { return &p.supply }),
		part("leads", "the plug and what the device does with it", leadsTable, func(p *path) *leads { return &p.leads }),
		part("near", "what stands close to the blades", nearTable, func(p *path) *near { return &p.near }),
		part("heat", "the heat this air carries away: power drawn less useful output", heatTable, func(p *path) *heat { return &p.heat }),
		part("air", "the air, measured with the heat of now; with heat, inlet and outlet it gives the flow", airTable, func(p *path) *airflow { return &p.air }),
		part("resistance", "other ways to the path's resistance; several are compared", waysTable, func(p *path) *ways { return &p.resistance }),
		list("spots", "watched places, as found when steady", spotTable, func(p *path) *[]spot { return &p.spots }),
		part("measured", "the level of this fan alone", readingTable, func(p *path) *reading { return &p.measured }),
	}}
}

func parseArrangement(text string) (arrangement, error) {
	i, err := oneOf(text, arrangements)
	return parallel + arrangement(i), err
}

func heatTable() table {
	watts := func(name, about, example string, at func(*heat) *placed[quantity.Power]) entry {
		return amountLeaf(name, about, example, "W", 0.1, 1e6, at)
	}
	return table{name: "heat", entries: []entry{
		watts("now", "while you measured", "90 W", func(h *heat) *placed[quantity.Power] { return &h.now }),
		watts("worst", "the most it will be", "110 W", func(h *heat) *placed[quantity.Power] { return &h.worst }),
	}}
}

func airTable() table {
	return table{name: "air", entries: []entry{
		heatLeaf("inlet", "the air that enters", "24 °C", coldestRoom, 150, func(a *airflow) *placed[quantity.Temperature] { return &a.inlet }),
		heatLeaf("outlet", "the air that leaves, mixed", "33 °C", coldestRoom, 200, func(a *airflow) *placed[quantity.Temperature] { return &a.outlet }),
		choiceLeaf("fan_at", "the end of the path the fan sits at", places, resistance.Inlet, func(a *airflow) *placed[resistance.Place] { return &a.fanAt }),
	}}
}

// places lists the names of where a fan sits, by resistance.Place.
var places = []string{"inlet", "outlet"}

func waysTable() table {
	return table{name: "resistance", entries: []entry{
		shareLeaf("share", "of its free airflow that the fan moves in there, estimated", "55 %", 1, 99, func(w *ways) *placed[float64] { return &w.share }),
		flowLeaf(func(w *ways) *placed[quantity.Flow] { return &w.flow }),
		pressureLeaf("pressure", "across everything but the fan, with it running", func(w *ways) *placed[quantity.Pressure] { return &w.pressure }),
		list("points", "two or more pairs of flow and pressure, measured across the path", pointTable, func(w *ways) *[]point { return &w.points }),
		list("geometry", "the pieces of the path, in the order the air takes them", pieceTable, func(w *ways) *[]piece { return &w.geometry }),
	}}
}

func pointTable() table {
	return table{name: "point", entries: []entry{
		flowLeaf(func(p *point) *placed[quantity.Flow] { return &p.flow }).needed(),
		pressureLeaf("pressure", "across the path at that flow", func(p *point) *placed[quantity.Pressure] { return &p.pressure }).needed(),
	}}
}

func flowLeaf[S any](at func(*S) *placed[quantity.Flow]) entry {
	return amountLeaf("flow", "mean velocity times open area, measured", "29 m³/h", "m³/h", 0.01, 200000, at)
}

func pressureLeaf[S any](name, about string, at func(*S) *placed[quantity.Pressure]) entry {
	return amountLeaf(name, about, "60 Pa", "Pa", 0.1, 50000, at)
}

func spotTable() table {
	return table{name: "spot", entries: []entry{
		textLeaf("name", "where the probe sat", "heat sink", func(s *spot) *placed[string] { return &s.name }).needed(),
		heatLeaf("found", "its temperature", "58 °C", coldestSpot, hottestSpot, func(s *spot) *placed[quantity.Temperature] { return &s.found }).needed(),
		heatLeaf("limit", "the most it may have", "75 °C", coldestSpot, hottestSpot, func(s *spot) *placed[quantity.Temperature] { return &s.limit }).needed(),
		textLeaf("limit_by", "what sets the limit", "thermal cut-out", func(s *spot) *placed[string] { return &s.limitBy }),
		amountLeaf("margin", "to keep below the limit", "10 K", "K", 0, 200, func(s *spot) *placed[quantity.TemperatureRise] { return &s.margin }),
		textLeaf("load", "under what load it was found", "both channels, full power", func(s *spot) *placed[string] { return &s.load }),
		amountLeaf("soak", "how long that load had lasted", "90 min", "min", 0, 600_000, func(s *spot) *placed[quantity.Time] { return &s.soak }),
		leaf("settled", "the settling rule it kept, by name", settlingRules()[0], form{kind: formChoice, words: settlingRules()}, parseRule, func(s *spot) *placed[string] { return &s.settled }),
		choiceLeaf("part", "for the price in life of more warmth", match.SpotParts, match.SpotOther, func(s *spot) *placed[match.SpotPart] { return &s.part }),
		shareLeaf("solid_share", "of its rise that no flow takes away", "15 %", 0, 99, func(s *spot) *placed[float64] { return &s.solid }),
		numberLeaf("film_exponent", "0.5 for narrow fins, 0.8 for turbulent air", "0.6", 0.3, 1, func(s *spot) *placed[float64] { return &s.film }),
		choiceLeaf("air", "which air cools it: that at the outlet, or the mean on the way", match.SpotAirs, match.AirOutlet, func(s *spot) *placed[match.SpotAir] { return &s.air }),
	}}
}

// settlingRules lists the names of the settling rules.
func settlingRules() []string {
	var names []string
	for _, r := range thermal.Rules() {
		names = append(names, r.Name)
	}
	return names
}

func parseRule(text string) (string, error) {
	_, err := oneOf(text, settlingRules())
	return text, err
}
