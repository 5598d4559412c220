namespace DeckLife.Numerics.Diffusion;

/// <summary>One march through all periods at one resolution.</summary>
/// <remarks>
/// Space: nodes on faces, interfaces and depths asked; each node holds the masses of its two halves, so an interface
/// node has its own share of both layers. Time: the two-stage, second-order, L-stable SDIRK method of Alexander 1977
/// (SIAM Journal on Numerical Analysis 14:1006-1021), γ = 1 - 1/√2, with the exact increments of the layers' clocks.
/// A step that leaves the range of initial and face values by more than a hundred-thousandth is redone as two
/// backward Euler steps, which keep it (their matrix is an M-matrix).
/// </remarks>
internal sealed class LayeredMarch
{
    private const double Gamma = 0.29289321881345254; // 1 - 1/√2
    private const double Rho = (1 - Gamma) / Gamma;
    private readonly LayeredPlan _plan;
    private readonly LayeredOptions _options;
    private readonly int _level;
    private readonly double[][] _nodes;
    private readonly double[][] _contents;
    private double _largestMass;
    private double _unaccounted;

    public LayeredMarch(LayeredPlan plan, LayeredOptions options, int level)
    {
        _plan = plan;
        _options = options;
        _level = level;
        _nodes = new double[plan.Layers.Count][];
        _contents = new double[plan.Layers.Count][];
        for (var i = 0; i < plan.Layers.Count; i++)
        {
            var layer = plan.Layers[i];
            _nodes[i] = LayeredMesh.Nodes(
                plan.FixedOf(i),
                plan.SharpOf(i),
                options.SpacingGrowth,
                layer.Thickness / (layer.IsUniform ? 4 : 24),
                level
            );
            _contents[i] = [.. _nodes[i].Select(layer.InitialContent)];
            NodeCount += _nodes[i].Length;
        }
    }

    public int NodeCount { get; }

    public int StepCount { get; private set; }

    /// <summary>Whether every nonlinear stage has been solved.</summary>
    public bool HasConverged { get; private set; } = true;

    public double MassBalanceError => _largestMass > 0 ? _unaccounted / _largestMass : 0;

    /// <summary>Contents at the plan's points.</summary>
    /// <param name="record">Called after each step with the time and a reader of contents by layer and node; may be absent.</param>
    public double[] Run(Action<double, LayeredSection>? record = null)
    {
        var found = new double[_plan.Points.Count];
        var queries = _plan.Points;
        for (var q = 0; q < queries.Count; q++)
        {
            if (queries[q].Period < 0)
            {
                found[q] = _plan.Layers[queries[q].Layer].InitialContent(queries[q].Position);
            }
        }

        for (var p = 0; p < _plan.Periods.Count; p++)
        {
            var period = _plan.Periods[p];
            if (period.End > period.Start)
            {
                Advance(p, period, found, record);
            }
        }

        return found;
    }

    private void Advance(
        int index,
        LayeredPeriod period,
        double[] found,
        Action<double, LayeredSection>? record
    )
    {
        var section = new LayeredSection(_plan, period, _nodes, _contents);
        var asked = _plan
            .Points.Select((p, q) => (p.Period, Query: q, p.Layer, p.Position))
            .Where(a => a.Period == index)
            .Select(a => (a.Query, Node: section.NodeOf(a.Layer, a.Position), a.Layer))
            .ToLookup(a => _plan.QueryTimes[a.Query]);
        var before = section.FreeMass();
        double inflow = 0;
        foreach (
            var (start, end, steps) in LayeredTimeGrid.Build(
                _plan,
                period,
                _options.LogarithmicStep,
                _options.MaximumStep,
                _level
            )
        )
        {
            var time = start;
            foreach (var next in steps)
            {
                inflow += Step(section, period, time, next, start, end);
                time = next;
                StepCount++;
                _largestMass = Math.Max(_largestMass, section.FreeMass());
                record?.Invoke(time, section);
                foreach (var (query, node, layer) in asked[time])
                {
                    found[query] = section.Content(node, layer);
                }
            }
        }

        _largestMass = Math.Max(_largestMass, Math.Abs(before));
        _unaccounted += Math.Abs(section.FreeMass() - before - inflow);
        HasConverged &= section.HasConverged;
        section.StoreInto(_contents);
    }

    private double Step(
        LayeredSection section,
        LayeredPeriod period,
        double from,
        double to,
        double start,
        double end
    )
    {
        // Just before a jump the face still has its old value.
        double At(double t) =>
            Math.Max(start, Math.Min(t, end - (1e-9 * Math.Min(1, end - start))));
        var middle = from + (Gamma * (to - from));
        var bottom = _plan.Problem.Bottom;
        section.SetClocks(from, to);
        section.Keep();
        section.SetFaces(
            period.Surface.Content?.Invoke(At(middle)),
            bottom.Content?.Invoke(At(middle))
        );
        section.Solve(Gamma, 1, 0);
        var inflow = (1 - Gamma) * section.Inflow();
        section.SetFaces(period.Surface.Content?.Invoke(At(to)), bottom.Content?.Invoke(At(to)));
        section.Solve(Gamma, 1 - Rho, Rho);
        inflow += Gamma * section.Inflow();
        if (section.IsWithinRange())
        {
            return inflow;
        }

        section.Restore();
        var half = 0.5 * (from + to);
        double damped = 0;
        foreach (var (a, b) in new[] { (from, half), (half, to) })
        {
            section.SetClocks(a, b);
            section.Keep();
            section.SetFaces(period.Surface.Content?.Invoke(At(b)), bottom.Content?.Invoke(At(b)));
            section.Solve(1, 1, 0);
            damped += section.Inflow();
        }

        return damped;
    }
}
