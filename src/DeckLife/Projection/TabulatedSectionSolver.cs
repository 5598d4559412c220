using System.Collections.Concurrent;

namespace DeckLife.Projection;

/// <summary>Reads sections that are alike in every draw from tables made once, and solves the others one by one.</summary>
/// <remarks>
/// A table depends on nothing but the domain and what its sections have in common, and which sections are read from one on nothing but
/// their own batch: neither on the order of batches nor on threads.
/// </remarks>
internal sealed class TabulatedSectionSolver : ISectionSolver
{
    // Judgement, of time only: what is rarer in a batch has no table of its own.
    private const int LeastSections = 4;

    // Judgement, of time only: depth classes times bars exposed or not, of two works. What lies beyond is solved, not read.
    private const int MostGeometries = 12;

    private readonly SectionDomain domain;
    private readonly ISectionSolver solver;
    private readonly ISectionSolver nodeSolver;
    private readonly ConcurrentDictionary<SectionKey, Lazy<SectionTable?>> tables = new();

    /// <summary>Prepares the solver; tables are made when first asked for.</summary>
    /// <param name="domain">How far tables reach.</param>
    /// <param name="solver">Solves what no table serves.</param>
    /// <param name="nodeSolver">Solves the tables' nodes.</param>
    public TabulatedSectionSolver(
        SectionDomain domain,
        ISectionSolver solver,
        ISectionSolver nodeSolver
    )
    {
        this.domain = domain;
        this.solver = solver;
        this.nodeSolver = nodeSolver;
    }

    /// <summary>The tables made so far, but for those that were not exact enough.</summary>
    public IReadOnlyList<SectionTable> Tables =>
        [.. tables.Values.Select(t => t.Value).OfType<SectionTable>()];

    /// <inheritdoc/>
    public ISectionSolver? Finer => solver.Finer;

    /// <inheritdoc/>
    public void Solve(SectionBatch batch, double[] contents)
    {
        if (batch.Family is null || batch.Count < LeastSections || !(batch.TimesYr[^1] > 0))
        {
            solver.Solve(batch, contents);
            return;
        }

        var rest = new List<int>();
        foreach (var (geometry, sections) in Groups(batch, rest))
        {
            var table = tables
                .GetOrAdd(
                    KeyOf(batch, geometry),
                    _ => new(() => SectionTable.Make(batch, geometry, domain, nodeSolver))
                )
                .Value;
            if (table is null)
            {
                rest.AddRange(sections);
            }
            else
            {
                table.Read(batch, sections, contents, rest);
            }
        }

        if (rest.Count == batch.Count)
        {
            solver.Solve(batch, contents);
        }
        else if (rest.Count > 0)
        {
            rest.Sort();
            var solved = new double[batch.TimesYr.Length * rest.Count];
            solver.Solve(batch.Only(rest), solved);
            for (var t = 0; t < batch.TimesYr.Length; t++)
            {
                for (var r = 0; r < rest.Count; r++)
                {
                    contents[t * batch.Count + rest[r]] = solved[t * rest.Count + r];
                }
            }
        }
    }

    // Sections of one geometry, where there are enough of them; the others go to the rest.
    private static List<(SectionGeometry Geometry, List<int> Sections)> Groups(
        SectionBatch batch,
        List<int> rest
    )
    {
        var renewedAt = batch.Family!.RenewedAt;
        var groups = new List<(SectionGeometry Geometry, List<int> Sections)>();
        for (var i = 0; i < batch.Count; i++)
        {
            var g = 0;
            while (g < groups.Count && !groups[g].Geometry.Fits(batch, i))
            {
                g++;
            }

            if (g == MostGeometries)
            {
                rest.Add(i);
                continue;
            }

            if (g == groups.Count)
            {
                groups.Add((SectionGeometry.Of(batch, i, renewedAt), new(batch.Count)));
            }

            groups[g].Sections.Add(i);
        }

        foreach (var (_, sections) in groups.Where(g => g.Sections.Count < LeastSections))
        {
            rest.AddRange(sections);
        }

        groups.RemoveAll(g => g.Sections.Count < LeastSections);
        foreach (var (geometry, sections) in groups)
        {
            // Nearer to the surface something else happens to a place than to the table's.
            var (low, _) = geometry.CoversMm();
            sections.RemoveAll(i =>
            {
                var isShallow = SectionGeometry.CoverMm(batch, i) < low - 1e-6;
                if (isShallow)
                {
                    rest.Add(i);
                }

                return isShallow;
            });
        }

        return groups;
    }

    private static SectionKey KeyOf(SectionBatch batch, SectionGeometry geometry)
    {
        var numbers = new List<double>(batch.TimesYr);
        numbers.AddRange(geometry.DepthsMm);
        numbers.AddRange(batch.Family!.Factors);
        foreach (var material in batch.Family.Materials)
        {
            numbers.Add(material);
        }

        numbers.AddRange([
            batch.Family.RenewedAt,
            batch.LayerInitial,
            batch.OldInstantaneousRatio,
            batch.SquaredSpreadPerDiffusion,
            .. Numbers(batch.LayerAgeing),
            .. Numbers(batch.OldAgeing),
        ]);
        foreach (var e in batch.Events)
        {
            numbers.AddRange([
                e.AtYr,
                e.LayerInitial,
                e.RemovedMm is null ? 0 : 1,
                e.LayerThicknessMm is null ? 0 : 1,
                .. Numbers(e.LayerAgeing),
            ]);
        }

        return new([.. numbers]);
    }

    private static double[] Numbers(AgeingLaw law) =>
        [law.Exponent, law.ReferenceAgeYr, law.AgeAtStartYr, law.ConstantAfterYr];
}
