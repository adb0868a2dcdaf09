package lesson_test

import (
	"strings"
	"testing"

	"annuloscope/scenes/present/lesson"
)

// tiny is about the smallest lesson that can be (DEVELOPERS.md, "A lesson"; assets/lessons/README.md is the manual).
const tiny = `---
annuloscope_lesson: 1
name: tiny
language: en
order: 99
title: One clip, two openings
summary: What a clip in the middle does to the opening.
minutes: 2
sources:
  physics.md A3: published openings before and after one clip
plans:
  clip:
    title: One clip
    case: functional
    repairs: [edge-clip]
expect:
  - clip.opening.anatomic_area_cm2 < clip.before.opening.anatomic_area_cm2
prediction:
  choices:
    - text: The opening stays as wide
      when: clip.opening.anatomic_area_cm2 >= 0.9 * clip.before.opening.anatomic_area_cm2
      because: The held edges cannot part.
    - text: It loses much of its area
      when: clip.opening.anatomic_area_cm2 < 0.9 * clip.before.opening.anatomic_area_cm2
      because: Yes. Two small openings enclose less than one large one of the same edge.
computation:
  plans: [clip]
  quantities: [opening.anatomic_area_cm2]
  picture: clip
  phase: diastole
  view: atrium
evidence:
  - finding: Opening after one clip
    citation: see physics.md
    source: physics.md A3
    subjects: not told
    followed: not told
    published: 3.6
    unit: cm²
    decimals: 1
    model: clip.opening.anatomic_area_cm2
explore:
  plan: clip
  scene: valve
  controls: [repair/edge-clip/width_mm]
transfer:
  plans: [clip]
  quantities: [opening.anatomic_area_cm2]
  number:
    of: clip.opening.anatomic_area_cm2
    unit: cm²
    from: 0
    to: 6
    step: 0.5
    within: 1
---
## question

A clip holds the two edges together in the middle. What happens to the opening?

## prediction

Choose before you look.

## computation

Watch the valve open.

## why

The opening falls from {{clip: before.opening.anatomic_area_cm2}} to {{clip: after.opening.anatomic_area_cm2}}.

**Two small openings enclose less than one large one.**

## evidence

One published series.

## explore

Find the narrowest clip that still holds.

## transfer

How large is the opening?

## answer

It is {{clip: after.opening.anatomic_area_cm2}}.
`

// The example lesson reads, holds against the model, and has the answer that the model gives; told a wrong thing about the
// model it fails and names the line.
func TestExampleLesson(t *testing.T) {
	if err := check([]byte(tiny)); err != nil {
		t.Fatal(err)
	}
	l, err := lesson.Parse([]byte(tiny), builtIn)
	if err != nil {
		t.Fatal(err)
	}
	res, err := l.Solve(solve)
	if err != nil {
		t.Fatal(err)
	}
	if right := l.Prediction.Right(res); right != 1 {
		t.Errorf("the right answer is choice %d", right)
	}
	wrong := strings.Replace(tiny, "  - clip.opening.anatomic_area_cm2 < clip", "  - clip.opening.anatomic_area_cm2 > clip", 1)
	if err := check([]byte(wrong)); err == nil || !strings.Contains(err.Error(), "line 17") {
		t.Errorf("a wrong claim about the model: %v", err)
	}
}
