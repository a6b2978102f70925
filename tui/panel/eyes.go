package panel

import (
	"github.com/lucasb-eyer/go-colorful"

	"example.com/oddments/species"
)

// An Eye is how a colour is seen: a matrix on linear red, green and blue.
type Eye [9]float64

// Eyes lists how most people see and how those see who lack one kind of cone: Machado,
// Oliveira and Fernandes, A Physiologically-based Model for Simulation of Color Vision
// Deficiency, IEEE Transactions on Visualization and Computer Graphics 15 (2009), severity
// 1.0; from memory. The last sees lightness alone, by the weights of ITU-R BT.709.
func Eyes() []Eye {
	return []Eye{
		{1, 0, 0, 0, 1, 0, 0, 0, 1},
		{0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998}, // protanopia
		{0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940, 0.968881},  // deuteranopia
		{1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.303900}, // tritanopia
		{0.2126, 0.7152, 0.0722, 0.2126, 0.7152, 0.0722, 0.2126, 0.7152, 0.0722},
	}
}

// sees returns the colour that the eye takes c for.
func (e Eye) sees(c species.RGB) colorful.Color {
	r, g, b := exact(c).LinearRgb()
	return colorful.LinearRgb(e[0]*r+e[1]*g+e[2]*b, e[3]*r+e[4]*g+e[5]*b, e[6]*r+e[7]*g+e[8]*b).Clamped()
}

// leastDifference returns the colour difference (CIEDE2000) of a and b to the eye that tells
// them apart worst.
func leastDifference(a, b species.RGB) float64 {
	least := difference(a, b)
	for _, e := range Eyes() {
		least = min(least, 100*e.sees(a).DistanceCIEDE2000(e.sees(b)))
	}
	return least
}
