package loudness

import "fmt"

// Field says how the sound comes to the listener.
type Field uint8

// Sound fields of [ISO532-1].
const (
	Free    Field = iota // from the front, without reflections
	Diffuse              // from all sides alike, as far from the source in a hard room
)

// String gives the name of the field.
func (f Field) String() string {
	switch f {
	case Free:
		return "free"
	case Diffuse:
		return "diffuse"
	}
	return fmt.Sprintf("Field(%d)", uint8(f))
}
