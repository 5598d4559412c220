using System.Collections.Immutable;
using DeckLife.Numerics.LinearMixed;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Profiles;
using DeckLife.Propagation;
using DeckLife.Quantities;
using DeckLife.Surveys;
using DeckLife.Tests.Projection;
using MathNet.Numerics;

namespace DeckLife.Tests.Population;

/// <summary>
/// A deck whose truth is known, place by place: cover, Cs, D and threshold are fields with a smooth part (exponential correlation) and local
/// scatter; each cell corrodes by the closed form. Then surveyed as a crew would.
/// </summary>
internal sealed class SimulatedDeck
{
    public const double LengthM = 48;
    public const double WidthM = 12;
    public const double ExposureYr = 30;
    private const int Along = 48;
    private const int Across = 12;
    private const int Cells = Along * Across;
    private const double CorrelationLengthM = 4;
    private const double Smooth = 0.6;
    private static readonly Lazy<double[]> Factor = new(MakeFactor);

    private readonly double[] initiationYr = new double[Cells];
    private readonly double[] damageYr = new double[Cells];
    private readonly double[] cover = new double[Cells];
    private readonly double[] surface = new double[Cells];
    private readonly double[] diffusion = new double[Cells];
    private readonly DeckTruth truth;
    private readonly RandomStream stream;

    public SimulatedDeck(DeckTruth truth, ulong seed, ulong index)
    {
        this.truth = truth;
        stream = new(seed, "simulated deck", index);
        var coverScore = Field();
        var surfaceScore = Field();
        var own = Field();
        var diffusionScore = own.Zip(
                surfaceScore,
                (d, s) =>
                    truth.Correlation * s + Math.Sqrt(1 - truth.Correlation * truth.Correlation) * d
            )
            .ToArray();
        var thresholdScore = Field();
        var patches = Field();
        for (var i = 0; i < Cells; i++)
        {
            var (x, y) = Centre(i);
            cover[i] = Math.Max(5, truth.CoverMm(coverScore[i], x, y));
            surface[i] = Math.Exp(
                truth.MeanLnSurface
                    + truth.SdLnSurface * surfaceScore[i]
                    + truth.LnSurfaceShift(patches[i], x, y)
            );
            diffusion[i] = Math.Exp(
                truth.MeanLnDiffusion
                    + truth.SdLnDiffusion * diffusionScore[i]
                    + truth.LnDiffusionShift(stream.NextUniform())
            );
            var threshold = Math.Exp(
                truth.MeanLnThreshold + truth.SdLnThreshold * thresholdScore[i]
            );
            initiationYr[i] = Initiation(i, threshold);
            damageYr[i] =
                initiationYr[i]
                + Math.Exp(truth.MeanLnPropagation + truth.SdLnPropagation * stream.NextNormal());
        }

        if (truth.Discrepancy != 0)
        {
            Shift(initiationYr, truth.Discrepancy);
            Shift(damageYr, truth.Discrepancy);
            for (var i = 0; i < Cells; i++)
            {
                // Propagation differs from cell to cell, and so does a cell's place in the two orders.
                initiationYr[i] = Math.Min(initiationYr[i], damageYr[i]);
            }
        }
    }

    /// <summary>Share of the deck damaged so many years after the survey.</summary>
    public double Damaged(double yearsOn) =>
        damageYr.Count(t => t <= ExposureYr + yearsOn) / (double)Cells;

    public double Initiated(double yearsOn) =>
        initiationYr.Count(t => t <= ExposureYr + yearsOn) / (double)Cells;

    public bool IsActiveAt(double x, double y) => initiationYr[CellAt(x, y)] <= ExposureYr;

    public bool IsDamagedAt(double x, double y, double yearsOn = 0) =>
        damageYr[CellAt(x, y)] <= ExposureYr + yearsOn;

    /// <summary>Years after the survey until a share is damaged; the horizon where it comes first.</summary>
    public double YearOf(double share, double horizonYr)
    {
        var sorted = damageYr.Order().ToArray();
        var at = sorted[Math.Min(Cells - 1, (int)Math.Ceiling(share * Cells) - 1)] - ExposureYr;
        return Math.Clamp(at, 0, horizonYr);
    }

    /// <summary>The deck as its surveys see it.</summary>
    public Deck Survey(Deck like)
    {
        var soundings = ImmutableArray.CreateBuilder<SoundingArea>();
        // One crew outlines too much everywhere, another too little.
        var marked = Math.Max(0.1, 1 + truth.OutlineError * stream.NextNormal());
        var half = 0.5 * Math.Sqrt(marked);
        for (var i = 0; i < Cells; i++)
        {
            if (damageYr[i] <= ExposureYr && stream.NextUniform() < truth.Detection)
            {
                var (x, y) = Centre(i);
                soundings.Add(
                    new()
                    {
                        Row = i + 2,
                        Finding = SoundingFinding.Delaminated,
                        AreaM2 = marked,
                        Corners =
                        [
                            (x - half, y - half),
                            (x + half, y - half),
                            (x + half, y + half),
                            (x - half, y + half),
                        ],
                    }
                );
            }
        }

        return like with
        {
            Name = "simulated",
            AreaM2 = Cells,
            LengthM = LengthM,
            WidthM = WidthM,
            ExposureAge = Age.FromYears(ExposureYr),
            StatedCoverMm = null,
            Soundings = soundings.ToImmutable(),
            HalfCells =
            [
                .. Places(1.5)
                    .Select((p, i) => new HalfCellReading(i + 2, p.X, p.Y, Potential(p.X, p.Y))),
            ],
            Covers =
            [
                .. Places(2.4)
                    .Select(
                        (p, i) =>
                            new CoverReading(
                                i + 2,
                                p.X,
                                p.Y,
                                Depth.FromMillimetres(
                                    Math.Max(3, cover[CellAt(p.X, p.Y)] + stream.NextNormal())
                                )
                            )
                    ),
            ],
            Cores = [.. Enumerable.Range(0, truth.Cores).Select(Core)],
        };
    }

    public double Potential(double x, double y) =>
        truth.PotentialShiftMv
        + (
            IsActiveAt(x, y) ? -354 + 69.7 * stream.NextNormal() : -207 + 80.4 * stream.NextNormal()
        );

    public static IEnumerable<(double X, double Y)> Places(double spacing)
    {
        for (var y = spacing / 2; y < WidthM; y += spacing)
        {
            for (var x = spacing / 2; x < LengthM; x += spacing)
            {
                yield return (x, y);
            }
        }
    }

    public static int CellAt(double x, double y) =>
        Math.Clamp((int)x, 0, Along - 1) + Along * Math.Clamp((int)y, 0, Across - 1);

    private static (double X, double Y) Centre(int cell) =>
        (cell % Along + 0.5, cell / Along + 0.5);

    private static double[] MakeFactor()
    {
        var matrix = new double[Cells * Cells];
        for (var i = 0; i < Cells; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var (xi, yi) = Centre(i);
                var (xj, yj) = Centre(j);
                matrix[i * Cells + j] = Math.Exp(
                    -Math.Sqrt((xi - xj) * (xi - xj) + (yi - yj) * (yi - yj)) / CorrelationLengthM
                );
            }
        }

        return SymmetricMatrix.Factor(matrix, Cells)
            ? matrix
            : throw new InvalidOperationException("not positive definite");
    }

    private CoreProfile Core(int number)
    {
        var (x, y) = truth.CorePlace(stream.NextUniform(), stream.NextUniform());
        var cell = CellAt(x, y);
        var slices = ImmutableArray.CreateBuilder<ChlorideSlice>();
        for (var k = 0; k < 6; k++)
        {
            double top = 5 + 12.5 * k,
                content = 0;
            for (var part = 0; part < 10; part++)
            {
                content += 0.1 * Content(cell, top + 12.5 * (part + 0.5) / 10);
            }

            var error =
                truth.LabErrorShare * content * stream.NextNormal()
                + truth.LabErrorSd * stream.NextNormal();
            slices.Add(
                new()
                {
                    Row = k + 2,
                    Top = Depth.FromMillimetres(top),
                    Bottom = Depth.FromMillimetres(top + 12.5),
                    Content = ChlorideContent.FromKilogramsPerCubicMetre(
                        Math.Max(0.01, content + error)
                    ),
                }
            );
        }

        return new()
        {
            Core = FormattableString.Invariant($"C-{number + 1:00}"),
            ExposureAge = Age.FromYears(ExposureYr),
            Slices = slices.ToImmutable(),
            X = x,
            Y = y,
        };
    }

    // Each cell comes at the time when the model's share, its normal score shifted, reaches the cell's place in the order.
    private static void Shift(double[] times, double shift)
    {
        var order = Enumerable.Range(0, Cells).OrderBy(i => times[i]).ToArray();
        double[] sorted = [.. order.Select(i => times[i])];
        for (var rank = 0; rank < Cells; rank++)
        {
            var score = NormalQuantile.At((rank + 0.5) / Cells) - shift;
            var place = Math.Clamp(NormalQuantile.Probability(score) * Cells - 0.5, 0, Cells - 1);
            var (low, share) = ((int)place, place - (int)place);
            var (from, to) = (sorted[low], sorted[Math.Min(low + 1, Cells - 1)]);
            times[order[rank]] = double.IsFinite(to)
                ? from + share * (to - from)
                : (share < 0.5 ? from : to);
        }
    }

    private double Content(int cell, double depthMm) =>
        truth.BackgroundKgPerM3
        + (surface[cell] - truth.BackgroundKgPerM3)
            * SpecialFunctions.Erfc(depthMm / (2 * Math.Sqrt(diffusion[cell] * ExposureYr)));

    private double Initiation(int cell, double threshold)
    {
        var c0 = truth.BackgroundKgPerM3;
        if (threshold <= c0)
        {
            return 0;
        }

        if (threshold >= surface[cell])
        {
            return double.PositiveInfinity;
        }

        var u = SpecialFunctions.ErfcInv((threshold - c0) / (surface[cell] - c0));
        var effective = Math.Pow(cover[cell] / (2 * u), 2) / diffusion[cell];
        return truth.YearsAtEffective(effective);
    }

    private double[] Field()
    {
        double[] z = new double[Cells],
            local = new double[Cells],
            field = new double[Cells];
        stream.FillNormal(z);
        stream.FillNormal(local);
        var factor = Factor.Value;
        for (var i = 0; i < Cells; i++)
        {
            var sum = 0.0;
            for (var j = 0; j <= i; j++)
            {
                sum += factor[i * Cells + j] * z[j];
            }

            field[i] = Math.Sqrt(Smooth) * sum + Math.Sqrt(1 - Smooth) * local[i];
        }

        return field;
    }
}
