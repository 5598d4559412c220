using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Numerics.Diffusion;
using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>Chloride in a section at given times and depths: the transport engine.</summary>
/// <remarks>
/// Equation: Fick's second law in each layer with its own clock, content and flux continuous in the free chloride
/// (<see cref="LayeredSolver"/>). Accuracy: the printed estimate, by default at most 2e-4 of the largest content.
/// Checked by SectionSolverTests, the ingress cases under reference-checks and the closed forms of
/// <see cref="HalfSpace"/>, <see cref="FiniteSlab"/> and <see cref="TwoMedia"/>.
/// </remarks>
public static class SectionSolver
{
    /// <summary>Solves a section.</summary>
    /// <param name="section">The section.</param>
    /// <param name="queries">Times and depths asked.</param>
    /// <param name="options">How fine; absent: the defaults.</param>
    /// <exception cref="ArgumentException">The section can't be computed; the message says why. See <see cref="Problems"/>.</exception>
    public static IngressResult Solve(
        Section section,
        IReadOnlyList<IngressQuery> queries,
        LayeredOptions? options = null
    )
    {
        ArgumentNullException.ThrowIfNull(section);
        ArgumentNullException.ThrowIfNull(queries);
        var problems = Problems(section, queries);
        if (problems.Length > 0)
        {
            throw new ArgumentException(problems[0].Text);
        }

        var horizon = queries.Count == 0 ? 0 : queries.Max(q => q.Time.Years);
        var problem = ToProblem(section, horizon);
        var solution = LayeredSolver.Solve(
            problem,
            [.. queries.Select(q => new LayeredQuery(q.Time.Years, q.Depth.Millimetres))],
            options ?? Defaults(section)
        );
        if (!solution.IsComplete)
        {
            return new IngressResult
            {
                Rows = [],
                ErrorEstimateKgPerM3 = 0,
                MassBalanceError = 0,
                IsConverged = false,
                Diagnostics = [DiagnosticCatalogue.IngressNotCompleted.With()],
            };
        }

        var names = Names(section, horizon);
        var rows = queries.Select(
            (q, i) =>
                new IngressRow(
                    q.Time,
                    q.Depth,
                    // The scheme may leave 0 by less than its error estimate; a content does not.
                    ChlorideContent.FromKilogramsPerCubicMetre(Math.Max(0, solution.Contents[i])),
                    names[solution.LayerIndices[i]]
                )
        );
        return new IngressResult
        {
            Rows = [.. rows],
            ErrorEstimateKgPerM3 = solution.ErrorEstimate,
            MassBalanceError = solution.MassBalanceError,
            IsConverged = solution.IsConverged,
            Diagnostics = Notes(section, queries, solution),
        };
    }

    /// <summary>The history of the chloride at one point of the material, at a fixed and cheap resolution.</summary>
    /// <param name="section">The section.</param>
    /// <param name="depth">Depth of the point from the surface at time 0; it stays with the material.</param>
    /// <param name="horizon">Last time.</param>
    /// <exception cref="ArgumentException">The section can't be computed, or the point lies below it.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The horizon is 0.</exception>
    public static LayeredHistory History(Section section, Depth depth, Age horizon)
    {
        ArgumentNullException.ThrowIfNull(section);
        var problems = Problems(section, [new IngressQuery(default, depth)]);
        if (problems.Length > 0)
        {
            throw new ArgumentException(problems[0].Text);
        }

        return LayeredSolver.History(
            ToProblem(section, horizon.Years),
            depth.Millimetres,
            horizon.Years
        );
    }

    /// <summary>Everything that keeps a section from being computed; empty when nothing does.</summary>
    /// <param name="section">The section.</param>
    /// <param name="queries">Times and depths asked.</param>
    public static ImmutableArray<Diagnostic> Problems(
        Section section,
        IReadOnlyList<IngressQuery> queries
    )
    {
        ArgumentNullException.ThrowIfNull(section);
        ArgumentNullException.ThrowIfNull(queries);
        var problems = ImmutableArray.CreateBuilder<Diagnostic>();
        if (section.Layers.IsDefaultOrEmpty)
        {
            problems.Add(DiagnosticCatalogue.SectionWithoutLayers.With());
            return problems.ToImmutable();
        }

        var layers = section.Layers.Concat(
            section.Changes.Where(c => c.Place is not null).Select(c => c.Place!)
        );
        foreach (var layer in layers)
        {
            if (layer.Thickness.Millimetres <= 0 || !(layer.Capacity > 0))
            {
                problems.Add(DiagnosticCatalogue.LayerWithoutExtent.With(layer.Name));
            }

            if (
                layer.Diffusion is InstantaneousAgeing { Exponent: >= 1 }
                && layer.AgeAtStart.Years == 0
            )
            {
                problems.Add(DiagnosticCatalogue.AgeingFromBirth.With(layer.Name));
            }

            if (layer.Activation is not null && section.Temperature is null)
            {
                problems.Add(DiagnosticCatalogue.ActivationWithoutTemperature.With(layer.Name));
            }
        }

        var bound = layers.Count(l => l.Isotherm is not null);
        if (bound > 0 && bound < layers.Count())
        {
            problems.Add(DiagnosticCatalogue.IsothermNotInEveryLayer.With());
        }

        CheckRemovals(section, problems);
        foreach (var query in queries)
        {
            var thickness = section.ThicknessMm(query.Time.Years);
            if (query.Depth.Millimetres > thickness + 1e-9)
            {
                problems.Add(
                    DiagnosticCatalogue.DepthBelowSection.With(
                        query.Depth.Millimetres,
                        query.Time.Years,
                        thickness
                    )
                );
            }
        }

        return problems.ToImmutable();
    }

    // Layers of unlike activation answer the seasons unlike, and content at their interface with them: two months at the
    // coarsest of at least three levels resolves that.
    private static LayeredOptions Defaults(Section section)
    {
        var activations = section
            .Layers.Concat(section.Changes.Where(c => c.Place is not null).Select(c => c.Place!))
            .Select(l => l.Activation)
            .Distinct()
            .Count();
        return activations > 1 && section.Temperature is not (null or ConstantTemperature)
            ? new LayeredOptions { MaximumStep = 1.0 / 6 }
            : new LayeredOptions();
    }

    private static void CheckRemovals(Section section, ImmutableArray<Diagnostic>.Builder problems)
    {
        var thickness = section.Layers.Sum(l => l.Thickness.Millimetres);
        foreach (var change in section.Changes.OrderBy(c => c.At.Years))
        {
            var left = thickness - change.Remove.Millimetres;
            if (change.Remove.Millimetres > 0 && left < Section.LeastRemainingMm)
            {
                problems.Add(
                    DiagnosticCatalogue.RemovalTooDeep.With(
                        change.Remove.Millimetres,
                        change.At.Years,
                        thickness,
                        Section.LeastRemainingMm
                    )
                );
                return;
            }

            thickness = left + (change.Place?.Thickness.Millimetres ?? 0);
            var convection = change.Surface?.ConvectionDepth.Millimetres ?? 0;
            if (convection > thickness - Section.LeastRemainingMm)
            {
                problems.Add(DiagnosticCatalogue.ConvectionTooDeep.With(convection, thickness));
            }
        }

        var first = section.Layers.Sum(l => l.Thickness.Millimetres);
        if (section.Surface.ConvectionDepth.Millimetres > first - Section.LeastRemainingMm)
        {
            problems.Add(
                DiagnosticCatalogue.ConvectionTooDeep.With(
                    section.Surface.ConvectionDepth.Millimetres,
                    first
                )
            );
        }
    }

    private static ImmutableArray<Diagnostic> Notes(
        Section section,
        IReadOnlyList<IngressQuery> queries,
        LayeredSolution solution
    )
    {
        var notes = ImmutableArray.CreateBuilder<Diagnostic>();
        if (!solution.IsConverged)
        {
            notes.Add(
                DiagnosticCatalogue.ErrorAboveTolerance.With(
                    solution.ErrorEstimate,
                    solution.LargestContent
                )
            );
        }

        SurfaceLaw At(double years) =>
            section
                .Changes.Where(c => c.At.Years < years && c.Surface is not null)
                .OrderBy(c => c.At.Years)
                .LastOrDefault()
                ?.Surface
            ?? section.Surface;
        var inside = queries.Count(q =>
            q.Time.Years > 0 && q.Depth < At(q.Time.Years).ConvectionDepth
        );
        if (inside > 0)
        {
            notes.Add(DiagnosticCatalogue.DepthInConvectionZone.With(inside));
        }

        return notes.ToImmutable();
    }

    private static IReadOnlyList<string> Names(Section section, double horizon) =>
        [
            .. section.Layers.Select(l => l.Name),
            .. section
                .Changes.Where(c => c.Place is not null && c.At.Years < horizon)
                .OrderBy(c => c.At.Years)
                .Select(c => c.Place!.Name),
        ];

    internal static LayeredProblem ToProblem(Section section, double horizon)
    {
        DiffusionLayer Layer(ConcreteLayer layer, double start)
        {
            var clock = new LayerClock(layer, start, horizon, section.Temperature);
            var initial = layer.InitialChloride.KilogramsPerCubicMetre;
            return new DiffusionLayer(layer.Thickness.Millimetres, clock.At, _ => initial)
            {
                IsUniform = true,
                Sorption =
                    layer.Isotherm?.ToSorption()
                    ?? (
                        layer.Capacity == 1
                            ? LinearSorption.None
                            : new LinearSorption(layer.Capacity, layer.Capacity)
                    ),
            };
        }

        return new LayeredProblem
        {
            Layers = [.. section.Layers.Select(l => Layer(l, 0))],
            Surface = Face(section.Surface, 0, horizon),
            Bottom =
                section.Bottom.Law is { } law ? Face(law, 0, horizon)
                : section.Bottom.IsOpen
                    ? BoundaryCondition.Constant(
                        section.Layers[^1].InitialChloride.KilogramsPerCubicMetre
                    )
                : BoundaryCondition.Sealed,
            Events =
            [
                .. section
                    .Changes.OrderBy(c => c.At.Years)
                    .Select(c => new LayeredEvent(c.At.Years)
                    {
                        Removal = c.Remove.Millimetres,
                        Placed = c.Place is null ? null : Layer(c.Place, c.At.Years),
                        Surface = c.Surface is null ? null : Face(c.Surface, c.At.Years, horizon),
                    }),
            ],
        };
    }

    private static BoundaryCondition Face(SurfaceLaw law, double start, double horizon) =>
        law.IsSealed
            ? BoundaryCondition.Sealed
            : BoundaryCondition
                .Varying(t => law.ContentAt(t - start))
                .With(
                    [.. law.Kinks(horizon - start).Select(t => start + t)],
                    [.. law.Jumps(horizon - start).Select(t => start + t)],
                    law.ConvectionDepth.Millimetres
                );
}
