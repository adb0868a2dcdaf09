package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func BenchmarkNewAnnulus(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := NewAnnulus(normalShape); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCurveTo128(b *testing.B) {
	a, dst := mustAnnulus(b, normalShape), make([]r3.Vec, 128)
	b.ReportAllocs()
	for b.Loop() {
		a.CurveTo(dst)
	}
}

func BenchmarkResample128(b *testing.B) {
	curve, dst := normalShape.Curve(256), make([]r3.Vec, 128)
	b.ReportAllocs()
	for b.Loop() {
		Resample(dst, curve, true)
	}
}

func BenchmarkMeasure128(b *testing.B) {
	a := mustAnnulus(b, normalShape)
	curve, marks := a.CurveTo(make([]r3.Vec, 128)), a.MarksOf(128)
	b.ReportAllocs()
	for b.Loop() {
		Measure(curve, marks)
	}
}

func BenchmarkMinimalArea128(b *testing.B) {
	curve := normalShape.Curve(128)
	b.ReportAllocs()
	for b.Loop() {
		MinimalArea(curve)
	}
}

func BenchmarkWindBeside(b *testing.B) {
	a := mustAnnulus(b, normalShape)
	stations := []Station{{MM: 0, DistanceMM: 6}, {MM: 60, DistanceMM: 9}, {MM: 120, DistanceMM: 14}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := WindBeside(a, 330*math.Pi/180, true, stations, 121); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTubeMesh(b *testing.B) {
	tube := RoundTube(normalShape.Curve(120), 3)
	b.ReportAllocs()
	for b.Loop() {
		tube.Mesh(16, true)
	}
}
