namespace DeckLife.Numerics.Kernels;

/// <summary>How the surface content runs in time, as a factor on each sample's own: constant, growing in a straight line and then held, or sealed.</summary>
public sealed class SurfaceShape
{
    private SurfaceShape(double plateauYr, double startFraction, bool isSealed)
    {
        PlateauYr = plateauYr;
        StartFraction = startFraction;
        IsSealed = isSealed;
    }

    /// <summary>The full content from the start.</summary>
    public static SurfaceShape Constant { get; } = new(0, 1, false);

    /// <summary>No flux passes the surface.</summary>
    public static SurfaceShape Sealed { get; } = new(0, 1, true);

    /// <summary>Time at which the full content is reached, counted from the shape's own start [yr]; 0 for a constant one.</summary>
    public double PlateauYr { get; }

    /// <summary>The factor at the start.</summary>
    public double StartFraction { get; }

    /// <summary>Whether no flux passes the surface.</summary>
    public bool IsSealed { get; }

    /// <summary>Growth in a straight line, then held.</summary>
    /// <param name="plateauYr">Time at which the full content is reached [yr], above 0.</param>
    /// <param name="startFraction">The factor at the start, from 0 to 1.</param>
    public static SurfaceShape LinearThenHeld(double plateauYr, double startFraction = 0)
    {
        if (!(plateauYr > 0 && double.IsFinite(plateauYr)))
        {
            throw new ArgumentOutOfRangeException(
                nameof(plateauYr),
                plateauYr,
                "A time above 0 yr is needed."
            );
        }

        if (!(startFraction >= 0 && startFraction <= 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(startFraction),
                startFraction,
                "A fraction from 0 to 1 is needed."
            );
        }

        return new SurfaceShape(plateauYr, startFraction, false);
    }

    /// <summary>The factor at a time.</summary>
    /// <param name="timeYr">Time from the shape's own start [yr].</param>
    public double FactorAt(double timeYr) =>
        timeYr >= PlateauYr
            ? 1
            : StartFraction + ((1 - StartFraction) * (Math.Max(timeYr, 0) / PlateauYr));
}
