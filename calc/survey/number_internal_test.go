package survey

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// lengths as they occur: up to 300 m, among them round ones that make halves and zeros.
func anyLength(t *rapid.T, name string) length.Length {
	const most = 300 * length.Metre
	if rapid.Bool().Draw(t, name+" is round") {
		return length.Length(rapid.Int64Range(-40, 40).Draw(t, name)) * length.Inch / 2
	}
	return length.Length(rapid.Int64Range(-int64(most), int64(most)).Draw(t, name))
}

// Products and ratios in 128 bits are those of unlimited whole numbers (math/big), rounded in the same way.
func TestNumbersAgreeWithUnlimitedOnes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c, d := anyLength(t, "a"), anyLength(t, "b"), anyLength(t, "c"), anyLength(t, "d")
		times := func(a, b length.Length) *big.Int {
			return new(big.Int).Mul(big.NewInt(int64(a)), big.NewInt(int64(b)))
		}
		rounded := func(n *big.Int) float64 {
			f, _ := new(big.Float).SetInt(n).Float64()
			return f
		}
		p, q := shape.Point{X: a, Y: b}, shape.Point{X: c, Y: d}
		require.Equal(t, rounded(new(big.Int).Add(times(a, c), times(b, d))), dot(p, q))
		require.Equal(t, rounded(new(big.Int).Sub(times(a, d), times(b, c))), cross(p, q))

		if c == 0 || d.Abs() > c.Abs() {
			return // ratios are of parts of a wall
		}
		num, den := times(a, d), big.NewInt(int64(c))
		half := new(big.Rat).SetFrac(num.Add(num.Lsh(num, 1), den), new(big.Int).Lsh(den, 1)) // a·d/c + 1/2
		floor := new(big.Int).Div(half.Num(), half.Denom())
		require.Equal(t, floor.Int64(), int64(ratio(a, d, c)), "%d·%d/%d", a, d, c)
	})
}
