//! What `--help` says, for someone who lays paths.

pub(super) const PEGBOW: &str = r#"Pegbow: draw a curved garden path, see its bends in figures, print the sheet to set it out.

  pegbow [PLAN.ron]                   opens the window
  pegbow bend --chord 4m --rise 80cm  works out a bend from any two of its figures
  pegbow check PLAN.ron               lists what to put right in a plan
  pegbow sheet PLAN.ron --to OUT.pdf  writes the sheet that is taken outside
  pegbow pegs PLAN.ron --to OUT.csv   writes every peg as a table
  pegbow order PLAN.ron               lists what one option needs, and what it costs
  pegbow picture PLAN.ron --to A.png  draws one option as a picture to send or show
  pegbow figures PLAN.ron             prints every figure of a plan, for scripts
  pegbow example                      prints the built-in example plan

Each says more about itself: pegbow bend --help

Two examples
  Two pegs 84 inches apart; in the middle the bend stands 30 inches off the string between them:
    pegbow bend --chord 84in --rise 30in
  The example as a plan of your own, and its sheet on A4:
    pegbow example > quince-yard.ron
    pegbow sheet quince-yard.ron --to quince-yard.pdf

  -h, --help     this text
  -V, --version  the version

Exit status: 0 done, 1 check found something that stops, 2 it could not be done.
"#;

pub(super) const BEND: &str = r#"pegbow bend: works out a bend from any two of its figures

Give two of these:
  --chord LENGTH     straight from end peg to end peg
  --rise LENGTH      from the middle of the chord out to the bend, square
  --radius LENGTH    from the swing point to the bend: the string
  --arc LENGTH       along the bend
  --sweep ANGLE      the angle turned through: 105, 105deg, 45 30 (degrees, minutes) or 1.8rad
  --apothem LENGTH   from the swing point to the chord; with a minus when the bend goes round
                     more than half a circle
  --tangent LENGTH   from an end peg straight on to where both ends, led on, would meet
  --external LENGTH  from there back to the bend

and, if wanted:
  --units UNITS      metric or feet; without it the units of the first length that names its own,
                     else metric
  --graduation G     the finest division of the tape, such as 5mm, 1/8in or 0.01ft
  --json             for scripts: all figures in metres and radians, with every digit
  -h, --help         this text

Lengths are typed as they are written: 7' 6 1/2", 7ft 6.5in, 90 1/2 in, 2.3m, 230cm, 2300mm, 2m30.
A number without a unit is inches in feet; in metric it is metres, or millimetres from 1000 on.
Put quotes round what has spaces or strokes. How each was read stands above the answer.

Some pairs are true of two bends: both are printed, the one that turns least first. Some pairs
leave the radius to small slips of the tape: then a line says how much.

Two examples
  Two pegs 84 inches apart, 30 inches off the string in the middle: the string to swing it is
  3' 8 3/8":
    pegbow bend --chord 84in --rise 30in
  A string of 3 m joins two pegs 4 m apart in two ways, and both are printed:
    pegbow bend --chord 4m --radius 3m
"#;

pub(super) const CHECK: &str = r#"pegbow check: lists what to put right in a plan

  pegbow check PLAN.ron

One finding a line, what matters most first:

  stop: option A, path 1, leg 2: what is wrong and what to do [its-code]

  stop  it cannot be built as drawn
  care  it can, and probably should not
  note  worth knowing

Nothing is printed when there is nothing to say.
Exit status: 0 nothing stops, 1 something does, 2 the plan cannot be read.

Two examples
  Is this plan ready for the sheet?
    pegbow check quince-yard.ron
  Only what stops:
    pegbow check quince-yard.ron | grep ^stop
"#;

pub(super) const FIGURES: &str = r#"pegbow figures: prints every figure of a plan as JSON, for scripts

  pegbow figures PLAN.ron

Metres, radians and square metres with every digit; what does not exist is null. Each option has
its paths, each path its centre line, both edges and its area, each bend all its figures.
docs/figures.md names every key.

Two examples
  Keep the figures beside the plan:
    pegbow figures quince-yard.ron > quince-yard.json
  All radii of the plan:
    pegbow figures quince-yard.ron | grep radius
"#;

pub(super) const SHEET: &str = r#"pegbow sheet: writes the sheet that is taken outside, as a PDF

  pegbow sheet PLAN.ron --to OUT.pdf

  --to OUT.pdf       the file to write; one that is there is replaced, a plan never;
                     OUT.svg gives the plan page alone, in lines
  --paper PAPER      a4 (if nothing is said) or letter; a3 or tabloid for the plan page
  --option LETTER    which option of the plan; the first if nothing is said
  --order            the order list of the option instead: what to dig, buy and do, what it costs
  --client           the page for a client instead: two to four options beside each other
  --options A,B,C    the options on that page; the first four if nothing is said
  --without-prices   no money on that page
  --both-units       feet and inches beside metric in brackets, or the other way round
  --date YYYY-MM-DD  the day to print on it; without it the sheet is not dated
  -h, --help         this text

Four examples
  The first option on A4:
    pegbow sheet quince-yard.ron --to quince-yard.pdf
  The second on letter paper, for a helper with an inch tape:
    pegbow sheet quince-yard.ron --option B --paper letter --both-units --to sweep.pdf
  What to order for it:
    pegbow sheet quince-yard.ron --order --option B --to order.pdf
  Two options to choose from, without their prices:
    pegbow sheet quince-yard.ron --client --options A,B --without-prices --to options.pdf
"#;

pub(super) const PEGS: &str = r#"pegbow pegs: writes every peg of an option as a table, for a spreadsheet or another instrument

  pegbow pegs PLAN.ron --to OUT.csv

  --to OUT.csv       the file to write; one that is there is replaced, a plan never
  --option LETTER    which option of the plan; the first if nothing is said
  -h, --help         this text

One row a peg in walking order, path by path, then its swing points S1, S2 and so on. Lengths are
metres to 0.1 mm and not rounded to the tape: x east and y north on the plan, the station along
the centre line, the points of both edges square off the peg, along and off the base line (left
is positive), the two ties with their side, and the check tie. What there is none of is empty.
Columns are parted by commas, text is UTF-8. A name that a spreadsheet would take for a formula
has an apostrophe before it. docs/guide.md names every column.

Two examples
  The pegs of the first option:
    pegbow pegs quince-yard.ron --to quince-yard.csv
  Those of the second:
    pegbow pegs quince-yard.ron --option B --to sweep.csv
"#;

pub(super) const ORDER: &str = r#"pegbow order: lists what one option needs, and what it costs

  pegbow order PLAN.ron

  --option LETTER     which option of the plan; the first if nothing is said
  --prices LIST.ron   go by the prices of this list rather than by those of the plan
  --to OUT.csv        write a table instead of printing; one that is there is replaced, a plan never
  -h, --help          this text

The option needs a build-up, chosen at Count in the window. What has no price is listed with "no
price", and then the total is said to be incomplete. In the table amounts are metres, square and
cubic metres, kilograms, pieces and hours; docs/prices.md names every column and says how a price
list is written.

Two examples
  What the first option needs:
    pegbow order quince-yard.ron
  The second by your own prices, as a table:
    pegbow order quince-yard.ron --option B --prices prices.ron --to order.csv
"#;

pub(super) const PICTURE: &str = r#"pegbow picture: draws one option as a picture to send or show

  pegbow picture PLAN.ron --to OUT.svg|OUT.png

  --to OUT         the file to write: in lines with .svg, in pixels with .png; one that is there is
                   replaced, a plan never
  --option LETTER  which option of the plan; the first if nothing is said
  --width PIXELS   how wide a .png is, 200 to 8000; 1600 if nothing is said
  -h, --help       this text

The path and what stands round it, with a bar of length, and no figures. All options of a plan
show the same ground at the same scale, so that they can be laid side by side.

Two examples
  The first option in pixels, to send:
    pegbow picture quince-yard.ron --to quince-yard.png
  The second in lines, to print at any size:
    pegbow picture quince-yard.ron --option B --to sweep.svg
"#;

pub(super) const EXAMPLE: &str = r#"pegbow example: prints the built-in example plan, Quince Yard

  pegbow example

Two examples
  Make it a plan of your own:
    pegbow example > my-yard.ron
  Look at how a plan is written:
    pegbow example | less
"#;
