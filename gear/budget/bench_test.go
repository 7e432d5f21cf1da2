package budget

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

// The whole budget: rows, 10,000 builds, turn, setting, verdict.
func BenchmarkWork(b *testing.B) {
	p, s := standard(b), usual()
	for b.Loop() {
		r, _, err := Work(context.Background(), p, s, Options{Target: 0.05})
		require.NoError(b, err)
		require.NotNil(b, r)
	}
}

// 100,000 builds by chance.
func BenchmarkBuilds(b *testing.B) {
	m := modelOf(b, standard(b), usual())
	for b.Loop() {
		_, err := m.chance(context.Background(), 100000, 1, 0.05, 0)
		require.NoError(b, err)
	}
}

// One build rolled with its real outlines, tilted: two sections.
func BenchmarkRolled(b *testing.B) {
	m := modelOf(b, standard(b), usual())
	d, a := newDice(1), assembly{}
	d.draw(m, 0, &a)
	for b.Loop() {
		_, err := m.roll(&a)
		require.NoError(b, err)
	}
}
