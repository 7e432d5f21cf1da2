package view

import (
	"encoding/gob"
	"os"
	"testing"

	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

func TestZZDump(t *testing.T) {
	data, _ := os.ReadFile("/tmp/hub.toml")
	j, f := job.Read("hub.toml", data)
	if j == nil {
		t.Fatal(f)
	}
	d := drive.Check(j)
	for _, x := range d.Findings {
		t.Log(x.Level, x.Code, x.About, x.Text, x.Change)
	}
	t.Log(d.Pinion.Shape, d.Ring.Shape, d.Pinion.Shape.Edge)
	for i, m := range []*drive.Member{&d.Pinion, &d.Ring} {
		s, err := m.Body.Solid(m.Making)
		if err != nil {
			t.Fatal(err)
		}
		q, err := s.Mesh(.005)
		t.Log(err)
		if err == nil {
			t.Log(len(q.Facets), q.Check().Err(), q.Volume(), q.Box())
			w, _ := os.Create([]string{"/tmp/pv/pinion.gob", "/tmp/pv/ring.gob"}[i])
			gob.NewEncoder(w).Encode(q)
			w.Close()
		}
	}
}
