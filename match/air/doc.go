// Package air holds the properties of the air a fan moves.
package air
