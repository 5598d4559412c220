using DeckLife.Numerics.Interpolation;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Projection;

/// <summary>Histories of all sections of one geometry: solved once over cover and diffusion coefficients, read in between.</summary>
/// <remarks>
/// Transport is linear: a history is C0 + (Cs − C0) B(t) + (Ci − C0) L(t), C0 the background, Cs the surface content (of the old profile and of the new
/// surface), Ci what the layers are placed with; where layers differ in Ci, C0 has a response of its own. So only the responses are tabulated, for the cover and the logarithms of the two coefficients. A table holds itself against the
/// solver at places between its nodes, and is not used where it misses.
/// </remarks>
internal sealed class SectionTable
{
    /// <summary>Largest error at one place and time, as a share of the content that drives it.</summary>
    /// <remarks>
    /// Measured on seven kinds of work (the sections of TabulatedSectionSolverTests): tables of 11 x 7 x 5 nodes reach 1.0e-2 at most and a mean of
    /// 6e-4, those of 14 x 11 x 9 nodes 2e-3 and 1.2e-4; both leave shares of the area within 7e-4, which is the solver's own tolerance. Half as many
    /// nodes an axis give a mean of up to 4e-3 and shares off by 1.5e-2. The limits stand between: half of them would turn good coarse tables away.
    /// </remarks>
    public const double MostError = 2e-2;

    /// <summary>Root mean square of the error over places and times.</summary>
    public const double MostMeanError = 1e-3;

    // Judgement: a twelfth of the work of the coarse nodes; each probe tells the error of every time, so that the mean is of hundreds of values.
    private const int Probes = 32;

    // Thin against any layer, thick against the rounding of depths.
    private const double HairMm = 1e-3;

    private readonly SectionResponses responses;
    private readonly SplineTable table;
    private readonly Axis cover;
    private readonly Axis old;
    private readonly Axis material;

    private SectionTable(
        SectionResponses responses,
        SplineTable table,
        Axis cover,
        Axis old,
        Axis material
    )
    {
        this.responses = responses;
        this.table = table;
        this.cover = cover;
        this.old = old;
        this.material = material;
    }

    /// <summary>Root mean square of the error at the probes, and the largest.</summary>
    public (double Mean, double Largest) Error { get; private set; }

    /// <summary>Makes a table.</summary>
    /// <param name="batch">A batch with such sections; its dates, materials and surface are used.</param>
    /// <param name="geometry">Their geometry.</param>
    /// <param name="domain">How far to reach.</param>
    /// <param name="solver">Solves the nodes.</param>
    /// <returns>The table; nothing where the domain is empty, or it is not exact enough.</returns>
    public static SectionTable? Make(
        SectionBatch batch,
        SectionGeometry geometry,
        SectionDomain domain,
        ISectionSolver solver
    )
    {
        var family = batch.Family!;
        var (low, high) = geometry.CoversMm();
        // At an interface itself the content is at first that of the layer above it, a hair below that of the old concrete.
        low = Math.Max(low + HairMm, domain.CoverMm.Low);
        high = Math.Min(high, domain.CoverMm.High);
        if (!(high - low > 1))
        {
            return null;
        }

        // The bend was measured, like the limits above: 0 makes errors five to ten times as large, 0.35 two to three times, 0.95 no smaller.
        var cover = new Axis(low, high, domain.Nodes.Cover, 0.7);
        var old = new Axis(domain.LnOld.Low, domain.LnOld.High, domain.Nodes.Old, 0);
        // Concrete like the deck's own has the deck's coefficient.
        var (thin, thick) = family.Material < 0 ? (0, 0) : domain.LnMaterials[family.Material];
        var material = new Axis(thin, thick, domain.Nodes.Material, 0);
        var responses = new SectionResponses(batch, geometry);
        var nodes = new List<(double, double, double)>(cover.Nodes * old.Nodes * material.Nodes);
        for (var i = 0; i < cover.Nodes; i++)
        {
            for (var j = 0; j < old.Nodes; j++)
            {
                for (var k = 0; k < material.Nodes; k++)
                {
                    nodes.Add((cover.At(i), old.At(j), material.At(k)));
                }
            }
        }

        var result = new SectionTable(
            responses,
            new(
                [cover.Nodes, old.Nodes, material.Nodes],
                responses.Values,
                responses.Solve(nodes, solver)
            ),
            cover,
            old,
            material
        );
        result.Error = result.Probe(solver);
        return result.Error is { Mean: <= MostMeanError, Largest: <= MostError } ? result : null;
    }

    /// <summary>Reads sections.</summary>
    /// <param name="batch">The batch.</param>
    /// <param name="sections">Which of its sections have the geometry.</param>
    /// <param name="contents">Receives the contents, shape [times × sections of the batch].</param>
    /// <param name="beyond">Receives the sections that lie outside the table, and were not read.</param>
    public void Read(SectionBatch batch, List<int> sections, double[] contents, List<int> beyond)
    {
        Span<float> row = stackalloc float[table.Room];
        var outside = sections.Count(i => !Contains(batch, i));
        // A few in the far tails are read at the edge; where they are many they are solved.
        var reads = outside * 256 <= sections.Count;
        foreach (var i in sections)
        {
            if (!reads && !Contains(batch, i))
            {
                beyond.Add(i);
                continue;
            }

            Locate(batch, i, out var x, out var y, out var z);
            table.Read(cover.Place(x), old.Place(y), material.Place(z), row);
            responses.Contents(batch, i, row, contents);
        }
    }

    private bool Contains(SectionBatch batch, int section)
    {
        Locate(batch, section, out var x, out var y, out var z);
        return cover.Contains(x) && old.Contains(y) && material.Contains(z);
    }

    private static void Locate(
        SectionBatch batch,
        int i,
        out double cover,
        out double old,
        out double material
    )
    {
        cover = SectionGeometry.CoverMm(batch, i);
        old = Math.Log(batch.OldDiffusion[i]);
        material = Math.Log(batch.Family!.Coefficient(batch, i));
    }

    private (double Mean, double Largest) Probe(ISectionSolver solver)
    {
        // A lattice over the inside: the golden ratio's relatives of three dimensions.
        var probes = Enumerable
            .Range(0, Probes)
            .Select(k =>
                (
                    cover.Inside((0.5 + k * 0.8191725133961645) % 1),
                    old.Inside((0.5 + k * 0.6710436067037893) % 1),
                    material.Inside((0.5 + k * 0.5497004779019703) % 1)
                )
            )
            .ToList();
        var solved = responses.Solve(probes, solver);
        Span<float> row = stackalloc float[table.Room];
        var (largest, squares) = (0.0, 0.0);
        for (var p = 0; p < probes.Count; p++)
        {
            var (x, y, z) = probes[p];
            table.Read(cover.Place(x), old.Place(y), material.Place(z), row);
            for (var v = 0; v < responses.Values; v++)
            {
                var error = Math.Abs(row[v] - solved[p * responses.Values + v]);
                largest = Math.Max(largest, error);
                squares += error * error;
            }
        }

        return (Math.Sqrt(squares / solved.Length), largest);
    }

    // Nodes equally spaced, or closer together at the low end, where contents change fastest with depth.
    private sealed class Axis(double low, double high, int nodes, double bend)
    {
        private const double Margin = 2 * HairMm;

        public int Nodes { get; } = high > low ? nodes : 1;

        public double At(int node) => Nodes == 1 ? low : Inside(node / (Nodes - 1.0));

        public double Inside(double share) =>
            low + (high - low) * share * (1 - bend + bend * share);

        public bool Contains(double value) =>
            Nodes == 1 || (value >= low - Margin && value <= high + Margin);

        public double Place(double value)
        {
            if (Nodes == 1)
            {
                return 0;
            }

            var share = Math.Clamp((value - low) / (high - low), 0, 1);
            var even = 1 - bend;
            return (Nodes - 1)
                * (
                    bend == 0
                        ? share
                        : (Math.Sqrt(even * even + 4 * bend * share) - even) / (2 * bend)
                );
        }
    }
}
