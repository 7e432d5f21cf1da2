package solid

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// render writes a picture of the mesh into the directory named by
// RINGTRACK_PICTURES, if there is one: parallel rays, each pixel the nearest
// facet, shaded by the angle to the light. The view comes from the direction at
// turn about z and rise above the horizon, radians.
func render(t testing.TB, name string, m *Mesh, turn, rise float64) {
	dir := os.Getenv("RINGTRACK_PICTURES")
	if dir == "" {
		return
	}
	const size = 1100
	st, ct := math.Sincos(turn)
	sr, cr := math.Sincos(rise)
	right, toward := Point3{-st, ct, 0}, Point3{ct * cr, st * cr, sr}
	up := toward.Cross(right)
	see := func(p Point3) Point3 { return Point3{p.Dot(right), p.Dot(up), p.Dot(toward)} }
	b := m.Box()
	c, scale := see(b.Min.Add(b.Size().Mul(0.5))), size/b.Size().Len()
	depth := make([]float64, size*size)
	for i := range depth {
		depth[i] = math.Inf(-1)
	}
	img := image.NewGray(image.Rect(0, 0, size, size))
	light := right.Mul(-0.4).Add(up.Mul(0.5)).Add(toward.Mul(0.77))
	for f, k := range m.Facets {
		n := m.Normal(f)
		shade := uint8(40 + 205*math.Max(0, n.Mul(1/n.Len()).Dot(light)))
		if n.Dot(toward) <= 0 {
			continue
		}
		var p [3]Point3
		for i := range p {
			q := see(m.Vertices[k[i]]).Sub(c)
			p[i] = Point3{size/2 + q.X*scale, size/2 - q.Y*scale, q.Z}
		}
		fillTriangle(img, depth, p, shade)
	}
	w, err := os.Create(filepath.Join(dir, name+".png"))
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	if err := png.Encode(w, img); err != nil {
		t.Fatal(err)
	}
}

func fillTriangle(img *image.Gray, depth []float64, p [3]Point3, shade uint8) {
	size := img.Rect.Dx()
	lo := func(a, b, c float64) int { return max(0, int(math.Floor(min(a, b, c)))) }
	hi := func(a, b, c float64) int { return min(size-1, int(math.Ceil(max(a, b, c)))) }
	area := (p[1].X-p[0].X)*(p[2].Y-p[0].Y) - (p[1].Y-p[0].Y)*(p[2].X-p[0].X)
	for y := lo(p[0].Y, p[1].Y, p[2].Y); y <= hi(p[0].Y, p[1].Y, p[2].Y); y++ {
		for x := lo(p[0].X, p[1].X, p[2].X); x <= hi(p[0].X, p[1].X, p[2].X); x++ {
			fx, fy := float64(x)+0.5, float64(y)+0.5
			b := ((fx-p[0].X)*(p[2].Y-p[0].Y) - (fy-p[0].Y)*(p[2].X-p[0].X)) / area
			c := ((p[1].X-p[0].X)*(fy-p[0].Y) - (p[1].Y-p[0].Y)*(fx-p[0].X)) / area
			if b < 0 || c < 0 || b+c > 1 {
				continue
			}
			if z := p[0].Z + b*(p[1].Z-p[0].Z) + c*(p[2].Z-p[0].Z); z > depth[y*size+x] {
				depth[y*size+x] = z
				img.SetGray(x, y, color.Gray{Y: shade})
			}
		}
	}
}
