package recording

import (
	"encoding/binary"
	"fmt"
	"io"
	"math"
)

// blockBytes is how much is read at a time.
const blockBytes = 1 << 16

// louder is the largest number that is taken for a sample, as a multiple of full
// scale: files of floating point may go beyond 1, some by the factor of 16 bits.
const louder = 1 << 20

// read fills the channels of dst with the next samples as shares of full scale
// and says how many of each there are: fewer than asked for only at the end.
func (r *Recording) read(dst [][]float64) (n int, err error) {
	frame := r.format.frame()
	for n < len(dst[0]) && !r.over {
		want := min(len(dst[0])-n, len(r.raw)/frame) * frame
		if r.claimed >= 0 {
			want = int(min(int64(want), r.claimed-r.taken))
		}
		want = int(min(int64(want), maxSound-r.taken))
		got, err := io.ReadFull(r.src, r.raw[:want])
		r.taken += int64(got)
		if err != nil && !ended(err) {
			return n, &Error{File: r.name, Reason: fmt.Sprintf("cannot be read after %.4g s: %v", r.second(n), err), Err: ErrRead, Cause: err}
		}
		r.over = err != nil || want < frame || r.taken == r.claimed || r.taken >= maxSound
		frames := got / frame
		if err := r.decode(dst, n, frames); err != nil {
			return n, err
		}
		n += frames
	}
	r.frames += int64(n)
	return n, nil
}

// second is the time of the sample n after those read so far.
func (r *Recording) second(n int) float64 {
	return float64(r.frames+int64(n)) / float64(r.format.Rate)
}

// decode turns frames of r.raw into numbers.
func (r *Recording) decode(dst [][]float64, at, frames int) error {
	size, frame := r.format.Bits/8, r.format.frame()
	for c, channel := range dst {
		out := channel[at : at+frames]
		r.number(out, r.raw[c*size:], frame)
		if !r.format.Float {
			continue
		}
		for i, v := range out {
			if !(math.Abs(v) <= louder) { // NaN too
				return &Error{
					File:   r.name,
					Reason: fmt.Sprintf("the sample at %.4g s is %v: no sound", r.second(at+i), v),
					Hint:   "the recording or its export is damaged: record it again, as 16-bit or 24-bit PCM",
					Err:    ErrNotANumber,
				}
			}
		}
	}
	return nil
}

// number decodes len(out) samples that stand frame bytes apart.
func (r *Recording) number(out []float64, raw []byte, frame int) {
	le := binary.LittleEndian
	switch {
	case r.format.Float && r.format.Bits == 32:
		for i := range out {
			out[i] = float64(math.Float32frombits(le.Uint32(raw[i*frame:])))
		}
	case r.format.Float:
		for i := range out {
			out[i] = math.Float64frombits(le.Uint64(raw[i*frame:]))
		}
	case r.format.Bits == 16:
		for i := range out {
			out[i] = float64(int16(le.Uint16(raw[i*frame:]))) * (1.0 / (1 << 15))
		}
	case r.format.Bits == 24:
		for i := range out {
			b := raw[i*frame : i*frame+3]
			v := int32(uint32(b[0])<<8 | uint32(b[1])<<16 | uint32(b[2])<<24)
			out[i] = float64(v) * (1.0 / (1 << 31))
		}
	default:
		for i := range out {
			out[i] = float64(int32(le.Uint32(raw[i*frame:]))) * (1.0 / (1 << 31))
		}
	}
}
