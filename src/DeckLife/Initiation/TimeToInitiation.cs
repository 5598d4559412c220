using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.RootFinding;
using DeckLife.Numerics.SpecialFunctions;
using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.Initiation;

/// <summary>Time to initiation: when chloride at the bar first reaches the threshold.</summary>
/// <remarks>Checked by TimeToInitiationTests: closed form against the solver, and 14 digits of the reference case transport/first-crossing.</remarks>
public static class TimeToInitiation
{
    /// <summary>Closed form in one layer under a constant surface content: s = (x / (2 erfc⁻¹((Ct-C0)/(Cs-C0))))², then the time at which the clock shows s.</summary>
    /// <param name="surface">Cs.</param>
    /// <param name="background">C0.</param>
    /// <param name="diffusion">D and its ageing.</param>
    /// <param name="ageAtStart">Age of the concrete at the start of the exposure; used by an instantaneous law.</param>
    /// <param name="cover">x, depth of the bar less any convection depth.</param>
    /// <param name="threshold">Ct, on the basis of the contents.</param>
    /// <param name="horizon">Last exposure time looked at.</param>
    /// <exception cref="ArgumentException">The ageing exponent is 1 or more and the concrete's age at the start 0.</exception>
    /// <remarks>A background at the threshold is <see cref="AlreadyAt"/>; a surface content not above it, <see cref="NotWithin"/>.</remarks>
    public static InitiationTime UnderConstantSurface(
        ChlorideContent surface,
        ChlorideContent background,
        DiffusionLaw diffusion,
        Age ageAtStart,
        Depth cover,
        ChlorideContent threshold,
        Age horizon
    )
    {
        ArgumentNullException.ThrowIfNull(diffusion);
        var (cs, c0, ct) = (
            surface.KilogramsPerCubicMetre,
            background.KilogramsPerCubicMetre,
            threshold.KilogramsPerCubicMetre
        );
        if (c0 >= ct || (cover.Millimetres == 0 && cs >= ct))
        {
            return new AlreadyAt(default);
        }

        // At the surface's own content the depth is reached only after infinite time.
        if (cs <= ct)
        {
            return new NotWithin(horizon);
        }

        var u = ErrorFunction.InverseErfc((ct - c0) / (cs - c0));
        var root = cover.Millimetres / (2 * u);
        var clock = root * root;
        double Clock(double years) => diffusion.ClockMm2(ageAtStart.Years, years);
        if (!(Clock(horizon.Years) >= clock))
        {
            return new NotWithin(horizon);
        }

        if (diffusion is ConstantDiffusion constant)
        {
            return new Reached(
                Age.FromYears(clock / constant.Coefficient.SquareMillimetresPerYear)
            );
        }

        BracketedRoot.TryFind(t => Clock(t) - clock, 0, horizon.Years, 1e-13, out var time);
        return new Reached(Age.FromYears(time));
    }

    /// <summary>From a stored history, by a bracketed root on its first crossing.</summary>
    /// <param name="history">Content at the bar in time.</param>
    /// <param name="threshold">Threshold, on the basis of the contents.</param>
    public static InitiationTime FromHistory(LayeredHistory history, ChlorideContent threshold)
    {
        ArgumentNullException.ThrowIfNull(history);
        if (history.Contents[0] >= threshold.KilogramsPerCubicMetre)
        {
            return new AlreadyAt(Age.FromYears(Math.Max(0, history.Times[0])));
        }

        return history.TryFirstCrossing(threshold.KilogramsPerCubicMetre, out var time)
            ? new Reached(Age.FromYears(time))
            : new NotWithin(Age.FromYears(history.Times[^1]));
    }

    /// <summary>Of a bar in a section, followed through its changes: initiated means that the running maximum has reached the threshold.</summary>
    /// <param name="section">The section.</param>
    /// <param name="bar">Depth of the bar from the surface at time 0; it stays with the concrete.</param>
    /// <param name="threshold">Threshold as total chloride.</param>
    /// <param name="horizon">Last time looked at.</param>
    public static InitiationTime InSection(
        Section section,
        Depth bar,
        ChlorideContent threshold,
        Age horizon
    ) => FromHistory(SectionSolver.History(section, bar, horizon), threshold);
}
