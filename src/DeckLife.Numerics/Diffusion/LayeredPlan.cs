namespace DeckLife.Numerics.Diffusion;

/// <summary>
/// Walks through the events before anything is solved: which layers lie where in each period, which depths need a node
/// and where the mesh must be fine. As every cut is known beforehand, each layer keeps one mesh for all time and no
/// content is ever carried over from one mesh to another.
/// </summary>
internal sealed class LayeredPlan
{
    // Depths nearer than this to an interface count as at it [mm].
    private const double Snap = 1e-7;
    private readonly List<double>[] _fixed;
    private readonly List<(double Position, double Spacing)>[] _sharp;

    public LayeredPlan(
        LayeredProblem problem,
        IReadOnlyList<LayeredQuery> queries,
        LayeredOptions options
    )
    {
        Problem = problem;
        Horizon = Math.Max(
            problem.StartTime,
            queries.Count == 0 ? problem.StartTime : queries.Max(q => q.Time)
        );
        Layers = [.. problem.Layers];
        // Events at or after the last time asked change nothing that is printed.
        var events = problem
            .Events.Where(e => !e.IsEmpty && e.Time < Horizon)
            .OrderBy(e => e.Time)
            .ToList();
        Layers.AddRange(events.Where(e => e.Placed is not null).Select(e => e.Placed!));
        _fixed = [.. Layers.Select(l => new List<double> { 0, l.Thickness })];
        _sharp = [.. Layers.Select(_ => new List<(double, double)>())];
        for (var i = 0; i < Layers.Count; i++)
        {
            foreach (var position in Layers[i].InitialBreaks)
            {
                Fix(i, position);
            }
        }

        QueryTimes = [.. queries.Select(q => q.Time)];
        LandingTimes = [.. queries.Select(q => q.Time).Distinct().Order()];
        Walk(events, options);
        Points = [.. queries.Select(Locate)];
    }

    public LayeredProblem Problem { get; }

    public double Horizon { get; }

    public List<DiffusionLayer> Layers { get; }

    public List<LayeredPeriod> Periods { get; } = [];

    public double[] QueryTimes { get; }

    public List<double> LandingTimes { get; }

    /// <summary>For each query: the period whose end or inside it falls in (-1: the start), layer and depth in the layer.</summary>
    public List<(int Period, int Layer, double Position)> Points { get; }

    public IReadOnlyList<double> FixedOf(int layer) => _fixed[layer];

    public IReadOnlyList<(double Position, double Spacing)> SharpOf(int layer) => _sharp[layer];

    /// <summary>Layer and depth in it of a depth from the surface, in a period; an interface belongs to the layer above.</summary>
    public (int Layer, double Position) Find(LayeredPeriod period, double depth)
    {
        var left = depth;
        foreach (var piece in period.Stack)
        {
            var held = Layers[piece.Layer].Thickness - piece.Top;
            if (left <= held + Snap)
            {
                return (piece.Layer, Math.Min(piece.Top + left, Layers[piece.Layer].Thickness));
            }

            left -= held;
        }

        throw new ArgumentException(
            FormattableString.Invariant($"Depth {depth} mm lies below the section's bottom.")
        );
    }

    /// <summary>Gives the point of the material at a depth from the surface at the start a node.</summary>
    public (int Layer, double Position) FixPoint(double depth)
    {
        var (layer, position) = Find(Periods[0], depth);
        return (layer, Fix(layer, position));
    }

    private void Walk(List<LayeredEvent> events, LayeredOptions options)
    {
        var stack = Enumerable
            .Range(0, Problem.Layers.Count)
            .Select(i => new LayeredPiece(i, 0))
            .ToList();
        var surface = Problem.Surface;
        var time = Problem.StartTime;
        var placed = Problem.Layers.Count;
        for (var i = 0; i <= events.Count; i++)
        {
            var end = i < events.Count ? Math.Max(time, events[i].Time) : Horizon;
            var period = new LayeredPeriod(time, end, [.. stack], surface);
            Periods.Add(period);
            Sharpen(period, options, Periods.Count == 1);
            if (i == events.Count)
            {
                return;
            }

            Cut(stack, events[i].Removal);
            if (events[i].Placed is not null)
            {
                stack.Insert(0, new LayeredPiece(placed++, 0));
            }

            surface = events[i].Surface ?? surface;
            time = end;
        }
    }

    private void Cut(List<LayeredPiece> stack, double removal)
    {
        var left = removal;
        while (left > Snap)
        {
            if (stack.Count == 0)
            {
                throw new ArgumentException("An event removes the whole section.");
            }

            var (layer, top) = stack[0];
            var held = Layers[layer].Thickness - top;
            if (left < held - Snap)
            {
                stack[0] = new LayeredPiece(layer, Fix(layer, top + left));
                return;
            }

            stack.RemoveAt(0);
            left -= held;
        }

        if (stack.Count == 0)
        {
            throw new ArgumentException("An event removes the whole section.");
        }
    }

    // Sharp at a period's start: the surface, the bottom of what is held, the interface under what was placed, and at the
    // very start every interface and the bottom.
    private void Sharpen(LayeredPeriod period, LayeredOptions options, bool isFirst)
    {
        if (!(period.End > period.Start))
        {
            return;
        }

        SharpenAt(period, period.Start, options, isFirst);
        foreach (var jump in period.Surface.Jumps.Where(t => t > period.Start && t < period.End))
        {
            SharpenAt(period, jump, options, false);
        }
    }

    private void SharpenAt(LayeredPeriod period, double time, LayeredOptions options, bool all)
    {
        var next = NextAsked(time, period);
        foreach (var jump in period.Surface.Jumps)
        {
            if (jump > time && jump < next)
            {
                next = jump;
            }
        }

        double Spacing(int layer) =>
            Math.Max(
                1e-4,
                options.SpacingAtSharpPoint
                    * Math.Sqrt(Math.Max(0, Layers[layer].Clock(next) - Layers[layer].Clock(time)))
            );
        var top = period.Stack[0];
        _sharp[top.Layer].Add((top.Top, Spacing(top.Layer)));
        if (period.Surface.Content is not null && period.Surface.HeldDepth > 0)
        {
            var (layer, position) = Find(period, period.Surface.HeldDepth);
            _sharp[layer].Add((Fix(layer, position), Spacing(layer)));
        }

        var interfaces = all ? period.Stack.Count : Math.Min(2, period.Stack.Count);
        for (var i = 1; i < interfaces; i++)
        {
            var (above, below) = (period.Stack[i - 1], period.Stack[i]);
            _sharp[above.Layer].Add((Layers[above.Layer].Thickness, Spacing(above.Layer)));
            _sharp[below.Layer].Add((below.Top, Spacing(below.Layer)));
        }

        if (all && Problem.Bottom.Content is not null)
        {
            var last = period.Stack[^1].Layer;
            _sharp[last].Add((Layers[last].Thickness, Spacing(last)));
        }
    }

    private double NextAsked(double time, LayeredPeriod period)
    {
        var next = period.End;
        foreach (var asked in LandingTimes)
        {
            if (asked > time)
            {
                next = Math.Min(next, asked);
                break;
            }
        }

        return next;
    }

    private (int Period, int Layer, double Position) Locate(LayeredQuery query)
    {
        if (query.Time <= Problem.StartTime)
        {
            var (layer, position) = Find(Periods[0], query.Depth);
            return (-1, layer, Fix(layer, position));
        }

        var index = Periods.FindIndex(p => query.Time > p.Start && query.Time <= p.End);
        var found = Find(Periods[index], query.Depth);
        return (index, found.Layer, Fix(found.Layer, found.Position));
    }

    // Gives a depth in a layer a node, or returns the node it all but coincides with.
    private double Fix(int layer, double position)
    {
        var known = _fixed[layer];
        var index = known.BinarySearch(position);
        if (index >= 0)
        {
            return known[index];
        }

        index = ~index;
        if (index < known.Count && known[index] - position < Snap)
        {
            return known[index];
        }

        if (index > 0 && position - known[index - 1] < Snap)
        {
            return known[index - 1];
        }

        known.Insert(index, position);
        return position;
    }
}
