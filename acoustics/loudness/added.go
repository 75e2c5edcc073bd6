package loudness

import "lowsone/acoustics"

// Added gives by how much sone the loudness at a place rises when a source is
// switched on in a room that has a sound already, at most the source's own:
//
//	ΔN = min( N(source + room) − N(room), N(source) )
//
// with the energies added in each band; source and room are the levels at the
// listener. It is the source's own loudness in a silent room, and 0 for a source
// that the room drowns. A NaN among the levels, or +Inf in the room, gives NaN.
//
// It is a simple model of partial masking, an estimate: what the ear notices when
// the source is switched on, not how loud it then finds the source. A listener
// who attends to a fan picks it out of the murmur and rates it higher. Not known
// to it are masking in time, both ears, direction, and habit; a tone counts by
// the energy in its band. Both sounds are steady: a room whose noise comes and
// goes uncovers the source in its gaps. [ISO532-1] knows no partial masking.
//
// The bound is there for two sounds that are heard only together, and for the
// steps of the correction at low frequencies: a source far too soft to be heard
// can push a room that stands before such a step over it, by up to 0.7 sone
// among made-up rooms of at most 80 dB a band.
func Added(source, room *acoustics.Thirds, f Field) float64 {
	both := acoustics.SumThirds(source, room)
	return max(0, min(Sone(&both, f)-Sone(room, f), Sone(source, f)))
}
