package stl

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	reference "github.com/hschendel/stl"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// million returns a prism of about n facets.
func million(b *testing.B, n int) *solid.Mesh {
	chord := 1.0
	for {
		r := plane.Region{
			Outer: plane.CircleLoop(plane.Vec{}, 200),
			Holes: []plane.Loop{plane.CircleLoop(plane.Vec{}, 150).Reverse()},
		}
		if len(r.Outer.Flatten(chord))*8 >= n {
			m, err := solid.Prism(r, 0, 10, chord)
			require.NoError(b, err)
			return m
		}
		chord *= 0.8
	}
}

func referenceSolid(m *solid.Mesh) *reference.Solid {
	s := &reference.Solid{Triangles: make([]reference.Triangle, len(m.Facets)), BinaryHeader: make([]byte, 80)}
	for i, f := range m.Facets {
		n := m.Normal(i)
		n = n.Mul(1 / n.Len())
		t := &s.Triangles[i]
		t.Normal = reference.Vec3{float32(n.X), float32(n.Y), float32(n.Z)}
		for k, v := range f {
			p := m.Vertices[v]
			t.Vertices[k] = reference.Vec3{float32(p.X), float32(p.Y), float32(p.Z)}
		}
	}
	return s
}

// toFile runs write into a fresh file again and again.
func toFile(b *testing.B, size int64, write func(f *os.File) error) {
	path := filepath.Join(b.TempDir(), "out.stl")
	b.SetBytes(size)
	b.ReportAllocs()
	for b.Loop() {
		f, err := os.Create(path)
		require.NoError(b, err)
		require.NoError(b, write(f))
		require.NoError(b, f.Close())
	}
}

func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{20_000, 1_000_000} {
		m := million(b, n)
		var buf bytes.Buffer
		require.NoError(b, Write(&buf, m, Options{}))
		data := buf.Bytes()
		size := int64(len(data))
		rounded, err := m.Float32()
		require.NoError(b, err)
		name := func(s string) string { return fmt.Sprintf("%s-%d", s, len(m.Facets)) }
		b.Run(name("copy-of-the-bytes"), func(b *testing.B) {
			toFile(b, size, func(f *os.File) error { _, err := io.Copy(f, bytes.NewReader(data)); return err })
		})
		b.Run(name("write"), func(b *testing.B) {
			toFile(b, size, func(f *os.File) error { return Write(f, m, Options{}) })
		})
		b.Run(name("facets-only"), func(b *testing.B) {
			toFile(b, size, func(f *os.File) error {
				p := &printer{w: f, buf: make([]byte, 0, 1024*facetSize)}
				p.facets(rounded)
				p.flush()
				return p.err
			})
		})
		b.Run(name("reference-solid-and-WriteAll"), func(b *testing.B) {
			toFile(b, size, func(f *os.File) error {
				w := bufio.NewWriterSize(f, 1<<16)
				if err := referenceSolid(m).WriteAll(w); err != nil {
					return err
				}
				return w.Flush()
			})
		})
	}
}

func BenchmarkRead(b *testing.B) {
	m := million(b, 200_000)
	var buf bytes.Buffer
	require.NoError(b, Write(&buf, m, Options{}))
	data := buf.Bytes()
	b.Run("ours", func(b *testing.B) {
		b.SetBytes(int64(len(data)))
		b.ReportAllocs()
		for b.Loop() {
			_, err := Read(bytes.NewReader(data), ReadOptions{})
			require.NoError(b, err)
		}
	})
	b.Run("reference", func(b *testing.B) {
		b.SetBytes(int64(len(data)))
		b.ReportAllocs()
		for b.Loop() {
			_, err := reference.ReadAll(bytes.NewReader(data))
			require.NoError(b, err)
		}
	})
}
