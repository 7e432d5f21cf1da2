package png

import (
	"bufio"
	"compress/flate"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
	"io"
)

// encode writes an opaque picture with three bytes a pixel and no row filter.
// Large areas of one colour need none: for figures this is both smaller and
// about three times faster than to choose a filter for every row.
func encode(w io.Writer, img *image.RGBA) error {
	out := bufio.NewWriterSize(w, 64<<10)
	out.WriteString("\x89PNG\r\n\x1a\n")
	var head [13]byte
	binary.BigEndian.PutUint32(head[0:], uint32(img.Rect.Dx()))
	binary.BigEndian.PutUint32(head[4:], uint32(img.Rect.Dy()))
	head[8], head[9] = 8, 2 // bits a colour, true colour
	chunk(out, "IHDR", head[:])
	data := bufio.NewWriterSize(chunks{out}, 32<<10)
	z, err := zlib.NewWriterLevel(data, flate.BestSpeed)
	if err != nil {
		return err
	}
	if err := rows(z, img); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	if err := data.Flush(); err != nil {
		return err
	}
	chunk(out, "IEND", nil)
	return out.Flush()
}

func rows(w io.Writer, img *image.RGBA) error {
	row := make([]byte, 1+3*img.Rect.Dx())
	for y := range img.Rect.Dy() {
		pix := img.Pix[y*img.Stride:]
		for x := range img.Rect.Dx() {
			copy(row[1+3*x:4+3*x], pix[4*x:4*x+3])
		}
		if _, err := w.Write(row); err != nil {
			return err
		}
	}
	return nil
}

// chunk writes one chunk; a write error sticks to the buffer.
func chunk(w *bufio.Writer, kind string, data []byte) {
	var n [4]byte
	binary.BigEndian.PutUint32(n[:], uint32(len(data)))
	w.Write(n[:])
	w.WriteString(kind)
	w.Write(data)
	binary.BigEndian.PutUint32(n[:], crc32.Update(crc32.ChecksumIEEE([]byte(kind)), crc32.IEEETable, data))
	w.Write(n[:])
}

// chunks writes everything that it is given as one data chunk each.
type chunks struct{ w *bufio.Writer }

func (c chunks) Write(b []byte) (int, error) {
	chunk(c.w, "IDAT", b)
	_, err := c.w.Write(nil) // the buffer's error, if it has one
	return len(b), err
}
