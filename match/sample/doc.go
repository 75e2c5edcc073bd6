// Package sample says how sure a ranking is. It draws everything that is not
// certain, of the device and of each fan, and asks package match again under
// every draw.
//
// The draws are a seeded Latin hypercube: equal input gives equal bytes. What
// concerns the device (its resistance, the fitted fan, how its spots cool, the
// speed law of noise) is drawn once and shared by all fans, so that two fans are
// compared under the same draw. What concerns one fan is drawn at the same places
// for all, so that equal fans keep equal levels; where two fans are compared, it is
// drawn once more from a seed of their names, since what two labels are off by does
// not go together.
//
// Under a draw that contradicts itself (more flow than the fitted fan can give)
// the device cannot be; such draws are left out. Where the resistance was
// measured in more ways than one, the draws count by how well the other ways
// agree, and are drawn again from their weights.
//
// A fan is asked twice. As needed: adjusted at the bench until it moves the
// needed flow of that draw, held between its lowest and its full speed. As
// planned: at the speed the nominal ranking plans, before anything is measured.
//
// A range is that of one fan as its label has it: of fans at random it holds the
// truth eight times of ten. The fan ranked first of many stands there in part
// because its label flatters it. In simulated markets of 17 fans its level lies
// above its range in about 20 % of the cases, not 10.
//
// # What is drawn
//
// Half widths are of the 10–90 % range; all are common practice but for those
// with a source.
//
//   - the number the way to the resistance starts from: the spans of package
//     match/resistance; an assumed share of free delivery is 0.55 ± 0.15
//   - the laminar part of the loss at the present flow, where one number was
//     measured: even between 0 and 20 %. Narrow fins go as Q^1.91 (published
//     model of a heat sink with its duct), which is 9 %.
//   - a curve: ±10 % in flow along any system (its pressure goes with the square
//     of that), and of two ends also the family of shapes of its kind, fitted to
//     published curves, both from package match/curve; of a fan whose kind is not
//     stated those of mixed-flow fans, which lie between
//   - an end that was estimated: the spread of its kind in the catalogue
//   - full speed against the label: even over ±10 %; the speed of a slowed fan
//     against that: ±5 %, the band of the measured voltage law
//   - the speed of the fitted fan, measured: ±1 %; known from its supply: as any
//     fan's; neither: even between 85 and 100 % of its label, which is then its
//     full speed too
//   - a rated level: ±2 dB; an estimated one: the spread of its kind as well, and
//     what it goes with an estimated end
//   - the allowance off the best point: the band of package acoustics
//   - the factor of the speed law: even between 40 and 60
//   - a temperature found: ±1 K; the split of a rise: even over what is not known
//   - a level measured at the fitted fan: what the class of its meter lets it be
//     off, taken for two standard deviations; ±1.5 dB with a meter of which
//     nothing is said, ±5 dB with a phone at levels where none was tested
package sample
