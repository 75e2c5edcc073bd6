package gen

// family is one wheel in one housing, sold at several speeds, voltages and with several leads.
type family struct {
	maker              int
	series             string
	kind, supply       string
	width, height      float64 // mm
	depth, pitch       float64 // mm; pitch 0: not given
	bearing            byte    // b ball, s sleeve, f fluid
	blades             float64
	flow, press, sound float64 // what its design adds: factors on φ and ψ, dB
	fixed              bool    // no scatter and no gaps: the demo's story stands on it
	curve, stale       bool    // always sold with a curve; the curve is of an older version with less flow
	heard              bool    // its noise was measured by octaves
	runs               []run
}

// run is the part of a family made for one voltage: "3000:23 4200:3" means 3000 rpm with 2 and with 3 leads, 4200 rpm with 3 only.
// Lead codes: 2; 3 with tach; A: three with locked-rotor alarm; 4 with tach and PWM input. AC grades carry the speed at 50 Hz and
// become two fans, one for each mains frequency. After a dash stand the values the label lacks for sure: a airflow, p pressure, n noise, o the octave at 500 Hz.
type run struct {
	volts  float64
	grades string
}

// pitches are the hole pitches of square frames in mm: reference fit_frames (testdata/sources/fit_frames.csv); 119: AC frames, pitch
// 104.8, from MEMORY there.
func pitchOf(frame float64) float64 {
	switch frame {
	case 25:
		return 20
	case 30:
		return 24
	case 40:
		return 32
	case 50:
		return 40
	case 60:
		return 50
	case 80:
		return 71.5
	case 92:
		return 82.5
	case 119:
		return 104.8
	case 120:
		return 105
	case 140:
		return 124.5
	}
	return 0
}

func ax(maker int, series string, frame, depth float64, bearing byte, blades float64, runs ...run) family {
	return family{maker: maker, series: series, kind: kindAxial, supply: supplyDC, width: frame, height: frame, depth: depth,
		pitch: pitchOf(frame), bearing: bearing, blades: blades, flow: 1, press: 1, runs: runs}
}

func other(maker int, kind string, width, height, depth float64, bearing byte, blades float64, runs ...run) family {
	f := ax(maker, "", width, depth, bearing, blades, runs...)
	f.kind, f.height = kind, height
	if kind == kindRadial {
		f.series = "R"
	}
	if kind != kindMixed {
		f.pitch = 0
	}
	return f
}

func (f family) ac() family { f.supply = supplyAC; return f }
func (f family) tuned(flow, press, sound float64) family {
	f.flow, f.press, f.sound = flow, press, sound
	return f
}
func (f family) exact() family     { f.fixed = true; return f }
func (f family) curved() family    { f.curve = true; return f }
func (f family) inOctaves() family { f.heard = true; return f }
func (f family) aged() family      { f.curve, f.stale = true, true; return f }

// frame is the size by which the trade names it: AC frames of 119 mm are sold as 120.
func (f family) frame() float64 {
	if f.width == 119 {
		return 120
	}
	return f.width
}

// plan is the catalogue's first round, maker by maker. The families marked exact carry the story of the demo (see story_test.go).
func plan() []family {
	var all []family
	all = append(all, planOmbrasco()...)
	all = append(all, planWirbelhof()...)
	all = append(all, planNordwehe()...)
	all = append(all, planQuelmar()...)
	all = append(all, planTsurukaze()...)
	all = append(all, planVeltriva()...)
	all = append(all, planMarnfeld()...)
	all = append(all, planHarrowick()...)
	return append(all, planLenzkamp()...)
}

// Ombrasco: cheap, loud, gaps in its sheets. Both fitted fans of the demo's device are Ombrasco.
func planOmbrasco() []family {
	return []family{
		ax(ombrasco, "", 60, 25, 'b', 7, run{12, "2700:2 3800:23 4700:23 5600:23"}, run{24, "3800:2 5600:2"}).tuned(0.99, 0.98, 3.3).exact(),
		ax(ombrasco, "", 60, 15, 's', 7, run{12, "4000:2 5500:3"}),
		ax(ombrasco, "", 40, 20, 'b', 7, run{12, "5000:2 7000:23"}, run{5, "5000:2"}).tuned(1, 1, 2).exact(),
		ax(ombrasco, "", 40, 10, 's', 7, run{12, "5500:2 7000:2"}, run{5, "5500:2"}),
		ax(ombrasco, "", 30, 10, 's', 5, run{12, "8000:2"}, run{5, "8000:2"}),
		ax(ombrasco, "", 50, 15, 's', 7, run{12, "5000:2"}, run{5, "4000:2"}),
		ax(ombrasco, "", 80, 25, 'b', 7, run{12, "2000:2 2800:23"}, run{24, "2800:2"}, run{5, "2000:2"}),
		ax(ombrasco, "", 92, 25, 'b', 7, run{12, "1900:2 2600:3-a"}),
		ax(ombrasco, "", 120, 25, 'b', 7, run{12, "1400:2 1900:23 2500:3"}, run{24, "1900:2"}),
		ax(ombrasco, "", 120, 38, 'b', 5, run{12, "2700:3"}, run{24, "2700:2"}),
		ax(ombrasco, "", 119, 38, 'b', 5, run{230, "2600:2"}, run{115, "2600:2"}).ac().tuned(0.92, 0.9, 0),
		other(ombrasco, kindRadial, 75, 75, 30, 'b', 33, run{12, "2800:2 3600:23"}, run{24, "3600:2"}),
		other(ombrasco, kindRadial, 120, 120, 32, 'b', 43, run{12, "2500:2"}, run{24, "2500:2 3000:3"}),
	}
}

// Wirbelhof: industrial, honest, dear; curves for most.
func planWirbelhof() []family {
	return []family{
		ax(wirbelhof, "A", 60, 25, 'b', 7, run{12, "2500:3 3500:23 4500:3 5500:23 6300:34"}, run{24, "3500:3 4500:2A 6300:3"}, run{48, "5500:3"}).tuned(1, 1.03, -0.6).exact().curved().inOctaves(),
		ax(wirbelhof, "A", 60, 15, 'b', 7, run{12, "4500:3 6000:23"}),
		ax(wirbelhof, "H", 60, 38, 'b', 5, run{12, "6000:3 8000:34"}, run{24, "8000:3"}),
		ax(wirbelhof, "A", 40, 20, 'b', 7, run{12, "5500:23 7500:3 9500:34"}, run{24, "7500:3"}).inOctaves(),
		ax(wirbelhof, "A", 50, 20, 'b', 7, run{12, "3500:3 4800:3"}, run{24, "4800:3"}),
		ax(wirbelhof, "A", 80, 25, 'b', 7, run{12, "1800:3 2400:23 3100:34"}, run{24, "2400:2 3100:A"}),
		ax(wirbelhof, "A", 92, 25, 'b', 7, run{12, "1700:3 2300:23 2900:4"}),
		ax(wirbelhof, "A", 120, 25, 'b', 7, run{12, "1300:3 1800:23 2300:34"}, run{24, "1800:2 2300:3"}),
		ax(wirbelhof, "H", 120, 38, 'b', 5, run{12, "2200:3 2800:34"}, run{24, "2200:2 2800:A 3600:34"}, run{48, "2800:3"}).curved(),
		ax(wirbelhof, "N", 119, 38, 'b', 5, run{230, "2700:2 2200:2"}, run{115, "2700:2"}).ac().tuned(0.93, 0.92, 0),
		other(wirbelhof, kindRadial, 97, 94, 33, 'b', 38, run{12, "2600:3"}, run{24, "2600:2 3400:34"}),
	}
}

// Nordwehe: quiet, fluid bearings, levels to a tenth.
func planNordwehe() []family {
	return []family{
		ax(nordwehe, "", 60, 25, 'f', 9, run{12, "3000:3 4200:34 5200:3 6000:34"}, run{24, "5200:3"}, run{5, "3000:3"}).tuned(1.01, 1.02, -1.6).exact(),
		ax(nordwehe, "", 60, 20, 'f', 9, run{12, "4000:3 6500:34"}).tuned(1, 1.05, -0.8).exact().curved(),
		ax(nordwehe, "", 60, 15, 'f', 9, run{12, "3200:3 5000:3"}),
		ax(nordwehe, "", 40, 20, 'f', 9, run{12, "4400:3 6000:34 7600:3"}, run{5, "4400:3"}).tuned(1.02, 1.02, -1).exact(),
		ax(nordwehe, "", 40, 10, 'f', 9, run{12, "4500:34"}, run{5, "4500:3"}),
		ax(nordwehe, "", 50, 10, 'f', 9, run{12, "3500:3"}),
		ax(nordwehe, "", 80, 25, 'f', 9, run{12, "1300:3 1800:34 2200:4"}),
		ax(nordwehe, "", 92, 25, 'f', 9, run{12, "1300:3 1800:34"}),
		ax(nordwehe, "", 120, 25, 'f', 9, run{12, "800:3 1200:34 1500:34 2000:4-o"}, run{24, "1500:3"}, run{5, "1500:4"}).curved().inOctaves(),
		ax(nordwehe, "", 120, 15, 'f', 9, run{12, "1200:3 1600:4"}),
		ax(nordwehe, "", 140, 25, 'f', 7, run{12, "900:3 1200:34 1500:4"}),
	}
}

// Quelmar: mass market, labels that promise too much. Series P is the trap: much flow in free air, no pressure, a low level on the label.
func planQuelmar() []family {
	return []family{
		ax(quelmar, "K", 60, 25, 'b', 7, run{12, "2200:2 3000:23 4000:23 5000:23 5800:23 6400:3-p"}, run{24, "3000:2 5000:23"}, run{5, "4000:2"}).tuned(1, 1, 0.4).exact(),
		ax(quelmar, "P", 60, 25, 's', 5, run{12, "4000:3"}).tuned(1.42, 0.60, 0).exact(),
		ax(quelmar, "K", 60, 15, 's', 7, run{12, "3500:2 5000:23 6500:3"}),
		ax(quelmar, "K", 60, 10, 's', 7, run{12, "4000:2 5500:3"}, run{5, "4000:2"}),
		ax(quelmar, "K", 40, 20, 's', 7, run{12, "5000:2 6500:23 8000:23"}, run{24, "6500:2"}),
		ax(quelmar, "S", 40, 10, 's', 7, run{5, "5000:2"}, run{12, "5000:23 6500:2"}, run{24, "5000:2"}),
		ax(quelmar, "S", 30, 10, 's', 5, run{5, "8000:2"}, run{12, "8000:2 10000:3"}),
		ax(quelmar, "S", 25, 10, 's', 5, run{5, "9000:2"}, run{12, "9000:2 11000:2"}),
		ax(quelmar, "K", 50, 15, 's', 7, run{12, "3500:2 4500:23 5500:2"}, run{24, "4500:2"}),
		ax(quelmar, "S", 50, 10, 's', 7, run{12, "4000:2 5000:3"}),
		ax(quelmar, "K", 80, 25, 's', 7, run{12, "1600:2 2200:23 2900:23"}, run{24, "2900:2"}).aged(),
		ax(quelmar, "S", 80, 15, 's', 7, run{12, "2500:2 3000:3"}),
		ax(quelmar, "K", 92, 25, 's', 7, run{12, "1600:2 2200:23 2800:3"}),
		ax(quelmar, "K", 120, 25, 's', 7, run{12, "1100:2 1500:23 2000:23"}, run{24, "2000:2"}),
		ax(quelmar, "B", 120, 38, 'b', 5, run{12, "2400:2"}, run{24, "2400:2 3000:3"}),
		ax(quelmar, "W", 119, 38, 's', 5, run{230, "2500:2"}, run{115, "2500:2"}).ac().tuned(0.92, 0.9, 0),
		other(quelmar, kindRadial, 50, 50, 15, 's', 29, run{5, "4500:2"}, run{12, "4500:2 5500:3"}, run{24, "5000:2 6000:2"}),
	}
}

// Tsurukaze: high pressure, all voltages.
func planTsurukaze() []family {
	return []family{
		ax(tsurukaze, "F", 60, 25, 'b', 5, run{12, "3400:3 4800:34 6200:34"}, run{24, "4800:A 6200:3"}).tuned(1.04, 1.22, 0.2).exact().curved(),
		ax(tsurukaze, "F", 60, 20, 'b', 5, run{12, "4500:3 6000:3"}, run{24, "4500:3"}),
		ax(tsurukaze, "F", 60, 10, 'b', 7, run{12, "4200:3"}),
		ax(tsurukaze, "H", 60, 38, 'b', 5, run{12, "7000:3 9500:34 12000:4"}, run{24, "9500:3"}, run{48, "9500:3"}),
		ax(tsurukaze, "F", 40, 20, 'b', 5, run{12, "6000:3 8000:34 10500:4"}, run{24, "8000:A"}),
		ax(tsurukaze, "H", 40, 28, 'b', 5, run{12, "9000:3 12500:34 16000:4"}, run{24, "12500:3"}),
		ax(tsurukaze, "F", 40, 15, 'b', 7, run{12, "6000:3 7500:3"}, run{5, "6000:3"}),
		ax(tsurukaze, "F", 50, 20, 'b', 7, run{12, "4500:3 6000:3"}, run{24, "6000:3"}),
		ax(tsurukaze, "F", 80, 20, 'b', 7, run{12, "2200:3 2900:3"}),
		ax(tsurukaze, "H", 80, 38, 'b', 5, run{12, "4000:34"}, run{24, "4000:A 5500:34"}, run{48, "5500:4"}),
		ax(tsurukaze, "H", 92, 38, 'b', 5, run{24, "3500:3 4500:34"}, run{48, "4500:3"}),
		ax(tsurukaze, "H", 120, 38, 'b', 5, run{12, "2600:3 3800:34"}, run{24, "2600:A 3800:34"}, run{48, "3800:34"}).curved(),
		ax(tsurukaze, "H", 140, 38, 'b', 5, run{24, "2600:3"}, run{48, "3200:4"}),
		other(tsurukaze, kindRadial, 75, 75, 30, 'b', 31, run{12, "4200:3"}, run{24, "4200:34"}),
		other(tsurukaze, kindRadial, 97, 94, 33, 'b', 37, run{24, "4500:4"}, run{48, "4500:4"}),
		other(tsurukaze, kindRadial, 120, 120, 32, 'b', 41, run{24, "3200:34"}),
	}
}

// Veltriva: AC fans in 50/60 Hz pairs, some DC.
func planVeltriva() []family {
	return []family{
		ax(veltriva, "", 119, 38, 'b', 5, run{230, "2650:2 2000:2"}, run{115, "2650:2 2000:2"}).ac().tuned(0.93, 0.9, 0).curved(),
		ax(veltriva, "", 119, 25, 's', 7, run{230, "2550:2 1900:2"}, run{115, "2550:2"}).ac().tuned(0.95, 0.9, 0),
		ax(veltriva, "", 92, 25, 's', 7, run{230, "2400:2"}, run{115, "2400:2"}).ac().tuned(0.95, 0.9, 0),
		ax(veltriva, "", 92, 38, 'b', 5, run{230, "2100:2"}).ac().tuned(0.95, 0.9, 0),
		ax(veltriva, "", 80, 38, 'b', 5, run{230, "2700:2"}, run{115, "2700:2"}).ac().tuned(0.92, 0.85, 0),
		ax(veltriva, "", 80, 25, 's', 7, run{230, "2500:2"}).ac().tuned(0.95, 0.9, 0),
		other(veltriva, kindAxial, 172, 150, 51, 'b', 5, run{230, "2750:2"}, run{115, "2750:2"}).ac().tuned(0.82, 0.8, 0),
		ax(veltriva, "", 60, 25, 'b', 7, run{12, "3000:2 4500:23 6000:3-n"}, run{24, "3000:2 4500:2A 6000:3"}),
		ax(veltriva, "", 80, 32, 'b', 5, run{24, "2400:2 3200:23"}, run{12, "3200:3"}),
		ax(veltriva, "", 92, 32, 'b', 5, run{24, "2500:A 3200:3"}),
		ax(veltriva, "", 120, 38, 'b', 5, run{24, "2400:2 3000:23"}, run{48, "3000:2"}),
		ax(veltriva, "", 40, 28, 'b', 5, run{12, "9000:3 12000:4"}),
	}
}

// Marnfeld: blowers, sound power on the label.
func planMarnfeld() []family {
	return []family{
		other(marnfeld, kindRadial, 50, 50, 15, 'b', 27, run{12, "4000:3 5200:34"}, run{24, "5200:3"}, run{5, "4000:3"}),
		other(marnfeld, kindRadial, 60, 60, 20, 'b', 29, run{12, "4500:3"}, run{24, "4500:3"}),
		other(marnfeld, kindRadial, 75, 75, 30, 'b', 33, run{12, "2600:3 3500:34"}, run{24, "3500:34"}),
		other(marnfeld, kindRadial, 97, 97, 33, 'b', 37, run{12, "2400:2 3000:3 3700:34"}, run{24, "2400:2 3000:3 3700:34"}, run{48, "3700:3"}).curved(),
		other(marnfeld, kindRadial, 120, 120, 32, 'b', 43, run{12, "2000:3 2700:34"}, run{24, "2000:2 2700:34"}, run{48, "2700:4"}),
		other(marnfeld, kindRadial, 120, 120, 60, 'b', 40, run{230, "2300:2"}, run{115, "2300:2"}).ac().tuned(0.85, 0.9, 0),
	}
}

// Harrowick: flow in CFM, sizes in inches, sound power in bels.
func planHarrowick() []family {
	return []family{
		ax(harrowick, "", 60, 25, 'b', 7, run{12, "3200:3 4500:3 5800:34"}, run{24, "4500:2"}).tuned(1, 1, 0).exact(),
		ax(harrowick, "", 60, 38, 'b', 5, run{48, "8000:3"}, run{24, "8000:3"}),
		ax(harrowick, "", 40, 20, 'b', 7, run{12, "6000:3 8200:3"}),
		ax(harrowick, "", 40, 28, 'b', 5, run{12, "11000:4"}, run{48, "11000:4"}),
		ax(harrowick, "", 80, 25, 'b', 7, run{12, "2000:2 2700:3"}, run{24, "2700:2"}),
		ax(harrowick, "", 80, 25, 's', 7, run{115, "2500:2"}).ac().tuned(0.95, 0.9, 0),
		ax(harrowick, "", 80, 38, 'b', 5, run{24, "3800:3"}, run{48, "3800:3"}),
		ax(harrowick, "", 92, 25, 'b', 7, run{12, "2000:3 2600:3"}, run{24, "2600:2"}),
		ax(harrowick, "", 120, 25, 'b', 7, run{12, "1500:3 2000:34"}, run{24, "2000:2"}),
		ax(harrowick, "", 119, 38, 'b', 5, run{115, "2700:2 1700:2"}, run{230, "2700:2"}).ac().tuned(0.94, 0.92, 0),
		ax(harrowick, "", 140, 25, 'b', 7, run{12, "1400:3"}),
		other(harrowick, kindRadial, 97, 94, 33, 'b', 36, run{12, "3300:3"}, run{24, "3300:3"}),
	}
}

// Lenzkamp: crossflow and mixed flow, levels at 2 m.
func planLenzkamp() []family {
	return []family{
		other(lenzkamp, kindCross, 180, 50, 47, 's', 24, run{24, "2400:2 3000:3"}, run{12, "2400:2"}),
		other(lenzkamp, kindCross, 290, 50, 47, 's', 24, run{24, "2400:2"}),
		other(lenzkamp, kindCross, 240, 60, 58, 's', 28, run{230, "2500:2"}).ac(),
		other(lenzkamp, kindMixed, 120, 120, 38, 'b', 7, run{24, "3200:3 4200:34"}, run{12, "3200:3"}, run{48, "4200:3"}).curved(),
		other(lenzkamp, kindMixed, 92, 92, 38, 'b', 7, run{12, "3600:3"}, run{24, "4600:34"}),
		other(lenzkamp, kindMixed, 150, 150, 55, 'b', 7, run{24, "2800:3"}, run{48, "2800:4"}),
		ax(lenzkamp, "", 60, 25, 'b', 7, run{12, "4000:2 5200:3"}),
		ax(lenzkamp, "", 80, 32, 'b', 5, run{12, "2600:3"}, run{24, "2600:3"}),
		ax(lenzkamp, "", 92, 25, 'b', 7, run{12, "2000:2 2700:3"}),
		ax(lenzkamp, "", 120, 20, 'b', 7, run{12, "1200:3 1600:4"}),
	}
}
