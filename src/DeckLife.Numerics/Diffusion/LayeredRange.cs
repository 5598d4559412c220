namespace DeckLife.Numerics.Diffusion;

/// <summary>
/// Extremes of the start, of placed layers and of the faces. By the maximum principle the free concentration never
/// leaves them, so holding an extrapolated content between them only makes it better.
/// </summary>
internal sealed class LayeredRange
{
    private double _lowestFree = double.PositiveInfinity;
    private double _highestFree = double.NegativeInfinity;

    private LayeredRange() { }

    /// <summary>Largest content of the start, of placed layers and of the faces.</summary>
    public double LargestContent { get; private set; } = double.NegativeInfinity;

    public static LayeredRange Of(LayeredPlan plan)
    {
        var range = new LayeredRange();
        foreach (var layer in plan.Layers)
        {
            var points = layer.IsUniform ? 1 : 100;
            for (var k = 0; k <= points; k++)
            {
                range.Widen(layer.InitialContent(layer.Thickness * k / points), layer.Sorption);
            }

            foreach (var position in layer.InitialBreaks)
            {
                range.Widen(layer.InitialContent(position), layer.Sorption);
            }
        }

        foreach (var period in plan.Periods)
        {
            range.Widen(period, period.Surface, plan.Layers[period.Stack[0].Layer].Sorption);
            range.Widen(period, plan.Problem.Bottom, plan.Layers[period.Stack[^1].Layer].Sorption);
        }

        return range;
    }

    /// <summary>The content, held between what the extremes mean in a layer.</summary>
    public double Hold(double content, Sorption sorption) =>
        Math.Clamp(content, sorption.Total(_lowestFree), sorption.Total(_highestFree));

    private void Widen(double content, Sorption sorption)
    {
        var free = sorption.Free(content);
        _lowestFree = Math.Min(_lowestFree, free);
        _highestFree = Math.Max(_highestFree, free);
        LargestContent = Math.Max(LargestContent, content);
    }

    private void Widen(LayeredPeriod period, BoundaryCondition face, Sorption sorption)
    {
        if (face.Content is null)
        {
            return;
        }

        for (var k = 0; k <= 100; k++)
        {
            Widen(face.Content(period.Start + ((period.End - period.Start) * k / 100)), sorption);
        }

        foreach (var time in face.Kinks.Concat(face.Jumps))
        {
            if (time >= period.Start && time <= period.End)
            {
                Widen(face.Content(time), sorption);
            }
        }
    }
}
