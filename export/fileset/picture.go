package fileset

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"ringtrack/export/figure"
	"ringtrack/export/gif"
	"ringtrack/export/png"
	"ringtrack/export/svg"
)

// PictureKinds are the endings that WritePicture knows.
var PictureKinds = []string{".svg", ".png", ".gif"}

// PictureKind returns the ending of a picture's name, or an error that says
// which there are.
func PictureKind(path string) (string, error) {
	kind := strings.ToLower(filepath.Ext(path))
	for _, k := range PictureKinds {
		if kind == k {
			return kind, nil
		}
	}
	return "", fmt.Errorf("%s: pictures are written as %s", path, strings.Join(PictureKinds, ", "))
}

// WritePicture writes figures to one file, by its ending: the first figure to
// .svg and .png, all of them to .gif. The file is written beside its place and
// renamed.
func WritePicture(path string, figures ...figure.Figure) error {
	kind, err := PictureKind(path)
	if err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".ringtrack-picture-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	w := bufio.NewWriter(f)
	if err = writeKind(w, kind, figures); err == nil {
		err = w.Flush()
	}
	if e := f.Chmod(0o644); err == nil {
		err = e
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return os.Rename(f.Name(), path)
}

func writeKind(w io.Writer, kind string, figures []figure.Figure) error {
	switch kind {
	case ".gif":
		return gif.Write(w, figures, gif.Options{})
	case ".png":
		return png.Write(w, figures[0], png.Options{})
	}
	return svg.WriteFigure(w, figures[0])
}
