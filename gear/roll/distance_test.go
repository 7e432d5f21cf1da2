package roll_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/roll"
)

// A pair moved to another centre distance rolls as one made there.
func TestMoved(t *testing.T) {
	p, o := standard(t)
	e, err := roll.New(p, o)
	require.NoError(t, err)
	for _, d := range []float64{-2, -0.3, 0, 0.2, 0.6} {
		q := p
		q.CentreDistance += d
		want, err := roll.New(q, o)
		require.NoError(t, err)
		got, err := e.Moved(q.CentreDistance)
		require.NoError(t, err)
		for _, phi := range []float64{0, 0.1, 0.25, 3} {
			require.Equal(t, want.Free(phi), got.Free(phi))
		}
	}
	for _, a := range []float64{0, -1, 1, 1e4} {
		q := p
		q.CentreDistance = a
		_, want := roll.New(q, o)
		_, got := e.Moved(a)
		require.Error(t, got)
		require.Equal(t, want, got)
	}
}
