// Package curve holds fan curves and where they meet a device's resistance.
package curve
