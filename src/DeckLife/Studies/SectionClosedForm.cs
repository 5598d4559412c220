using System.Buffers;
using System.Numerics;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Studies;

/// <summary>The closed form of a section without overlay, for many draws at once, in vectors.</summary>
/// <remarks>
/// Equation: content C0 + (Cs - C0) erfc((x - Δx)/(2√s)), s = D exp(b(1/Tref - 1/T)) a(t), a(t) = t, or tref^m t^(1-m), over 1 - m for the instantaneous law;
/// the time by its inverse. Accuracy: 1e-14 of the content, 1e-12 relative of the time while it is below 1e6 yr. Checked by: SectionModelTests.
/// </remarks>
internal sealed class SectionClosedForm(SectionSettings settings)
{
    private const double Kelvin = 273.15;

    /// <summary>exp(b(1/Tref - 1/T)) of each draw.</summary>
    public void Factor(SectionDraws draws, Span<double> result)
    {
        result.Clear();
        AddTemperature(draws, result);
        VectorFunctions.Exp(result, result);
    }

    /// <summary>The clock s(t) of each draw [mm²].</summary>
    public void Clock(SectionDraws draws, double ageYr, Span<double> clock)
    {
        var room = ArrayPool<double>.Shared.Rent(2 * clock.Length);
        var first = room.AsSpan(0, clock.Length);
        clock.Clear();
        var isAgeingFixed = IsAgeingFixed(draws);
        var years = isAgeingFixed ? Years(ageYr, draws.At(StudyVariable.AgeingExponent, 0)) : ageYr;
        if (!isAgeingFixed)
        {
            // (tref/t)^m = exp(m ln(tref/t)).
            VectorLoops.Line(
                draws.Column(StudyVariable.AgeingExponent, first),
                clock,
                0,
                Math.Log(settings.ReferenceAgeYr / ageYr)
            );
        }

        AddTemperature(draws, clock);
        VectorFunctions.Exp(clock, clock);
        VectorLoops.Multiply(clock, draws.Column(StudyVariable.DiffusionCoefficient, first), clock);
        if (!isAgeingFixed && settings.Ageing == SectionAgeing.Instantaneous)
        {
            DivideByRest(draws.Column(StudyVariable.AgeingExponent, first), clock);
        }

        VectorLoops.Line(clock, clock, 0, years);
        ArrayPool<double>.Shared.Return(room);
    }

    /// <summary>Content at the bar of each draw [kg/m³].</summary>
    public void Content(SectionDraws draws, double ageYr, Span<double> result) =>
        Content(draws, ageYr, result, isCompared: false);

    /// <summary>Whether each draw has started by an age: 1 or 0.</summary>
    public void IsInitiated(SectionDraws draws, double ageYr, Span<double> result) =>
        Content(draws, ageYr, result, isCompared: true);

    private void Content(SectionDraws draws, double ageYr, Span<double> result, bool isCompared)
    {
        var n = result.Length;
        var room = ArrayPool<double>.Shared.Rent(6 * n);
        var isAgeingFixed = IsAgeingFixed(draws);
        var isTemperatureFixed = IsTemperatureFixed(draws);
        var exponent = isTemperatureFixed ? [] : room.AsSpan(0, n);
        var years = isAgeingFixed ? Years(ageYr, draws.At(StudyVariable.AgeingExponent, 0)) : ageYr;
        if (isTemperatureFixed)
        {
            years *= FixedFactor(draws);
        }
        else
        {
            exponent.Clear();
            AddTemperature(draws, exponent);
        }

        ClosedFormContent.Fill(
            Depth(draws, room.AsSpan(n, n), room.AsSpan(2 * n, n)),
            draws.Column(StudyVariable.DiffusionCoefficient, room.AsSpan(2 * n, n)),
            isAgeingFixed ? [] : draws.Column(StudyVariable.AgeingExponent, []),
            exponent,
            draws.Column(StudyVariable.InitialChloride, room.AsSpan(3 * n, n)),
            draws.Column(StudyVariable.SurfaceChloride, room.AsSpan(4 * n, n)),
            isCompared ? draws.Column(StudyVariable.ChlorideThreshold, room.AsSpan(5 * n, n)) : [],
            new(
                years,
                Math.Log(settings.ReferenceAgeYr / ageYr),
                settings.Ageing == SectionAgeing.Instantaneous
            ),
            result
        );
        ArrayPool<double>.Shared.Return(room);
    }

    /// <summary>Time to initiation of each draw [yr]; positive infinity where it is beyond the horizon or never.</summary>
    public void Time(SectionDraws draws, double horizonYr, Span<double> result)
    {
        var n = result.Length;
        var room = ArrayPool<double>.Shared.Rent(4 * n);
        var depth = room.AsSpan(0, n);
        var second = room.AsSpan(n, n);
        var share = room.AsSpan(2 * n, n);
        var third = room.AsSpan(3 * n, n);
        // The share of the rise that the threshold needs: at most 0 is there from the start, 1 and above is never reached.
        var initial = draws.Column(StudyVariable.InitialChloride, depth);
        var surface = draws.Column(StudyVariable.SurfaceChloride, second);
        var threshold = draws.Column(StudyVariable.ChlorideThreshold, third);
        for (var i = 0; i < n; i++)
        {
            var needed = threshold[i] - initial[i];
            var rise = surface[i] - initial[i];
            share[i] =
                needed <= 0 ? 0
                : rise > needed ? needed / rise
                : 1;
            result[i] = Math.Clamp(0.5 * share[i], 1e-300, 0.49999999999999994);
        }

        // erfc(u) = share, so u = -Φ⁻¹(share/2)/√2, and s = (x - Δx)²/(4 u²).
        VectorFunctions.NormalQuantile(result, result);
        var below = Depth(draws, depth, second);
        below.CopyTo(depth);
        Factor(draws, second);
        var coefficients = draws.Column(StudyVariable.DiffusionCoefficient, third);
        for (var i = 0; i < n; i++)
        {
            var quotient = depth[i] / result[i];
            result[i] = 0.5 * quotient * quotient / (coefficients[i] * second[i]);
        }

        if (settings.Ageing != SectionAgeing.None)
        {
            var exponent = draws.Column(StudyVariable.AgeingExponent, third);
            if (settings.Ageing == SectionAgeing.Instantaneous)
            {
                for (var i = 0; i < n; i++)
                {
                    result[i] *= 1 - exponent[i];
                }
            }

            for (var i = 0; i < n; i++)
            {
                result[i] = Math.Clamp(result[i] / settings.ReferenceAgeYr, 1e-300, 1e300);
            }

            // a(t) = tref (t/tref)^(1-m).
            VectorFunctions.Log(result, result);
            DivideByRest(exponent, result);
            VectorFunctions.Exp(result, result);
            VectorLoops.Line(result, result, 0, settings.ReferenceAgeYr);
        }

        for (var i = 0; i < n; i++)
        {
            var time =
                share[i] >= 1 ? double.PositiveInfinity
                : share[i] <= 0 || depth[i] <= 0 ? 0
                : result[i];
            result[i] = time <= horizonYr ? time : double.PositiveInfinity;
        }

        ArrayPool<double>.Shared.Return(room);
    }

    /// <summary>Whether the temperature and its effect are the same for all draws.</summary>
    public static bool IsTemperatureFixed(SectionDraws draws) =>
        draws.IsFixed(StudyVariable.ActivationTemperature)
        && draws.IsFixed(StudyVariable.Temperature);

    private bool IsAgeingFixed(SectionDraws draws) =>
        settings.Ageing == SectionAgeing.None || draws.IsFixed(StudyVariable.AgeingExponent);

    /// <summary>exp(b(1/Tref - 1/T)) where neither is drawn.</summary>
    public double FixedFactor(SectionDraws draws) =>
        Math.Exp(
            Exponent(
                draws.At(StudyVariable.ActivationTemperature, 0),
                draws.At(StudyVariable.Temperature, 0)
            )
        );

    private double Exponent(double activation, double temperature) =>
        activation
        * ((1 / (settings.ReferenceTemperatureC + Kelvin)) - (1 / (temperature + Kelvin)));

    private double Years(double ageYr, double exponent) =>
        settings.Ageing switch
        {
            SectionAgeing.None => ageYr,
            SectionAgeing.Instantaneous => ageYr
                * Math.Pow(settings.ReferenceAgeYr / ageYr, exponent)
                / (1 - exponent),
            _ => ageYr * Math.Pow(settings.ReferenceAgeYr / ageYr, exponent),
        };

    // Depth of the bar below the convection zone, at least 0.
    private static ReadOnlySpan<double> Depth(
        SectionDraws draws,
        Span<double> result,
        Span<double> room
    )
    {
        var cover = draws.Column(StudyVariable.Cover, result);
        if (
            draws.IsFixed(StudyVariable.ConvectionDepth)
            && draws.At(StudyVariable.ConvectionDepth, 0) == 0
        )
        {
            return cover;
        }

        // The cover, where it is fixed, already stands in the result.
        VectorLoops.Line(draws.Column(StudyVariable.ConvectionDepth, room), room, 0, -1);
        VectorLoops.Add(cover, room, result);
        VectorLoops.Clamp(result, 0, double.PositiveInfinity);
        return result;
    }

    // Adds b(1/Tref - 1/T).
    private void AddTemperature(SectionDraws draws, Span<double> result)
    {
        if (
            draws.IsFixed(StudyVariable.ActivationTemperature)
            && draws.At(StudyVariable.ActivationTemperature, 0) == 0
        )
        {
            return;
        }

        var room = ArrayPool<double>.Shared.Rent(2 * result.Length);
        var activation = draws.Column(
            StudyVariable.ActivationTemperature,
            room.AsSpan(0, result.Length)
        );
        var temperature = draws.Column(
            StudyVariable.Temperature,
            room.AsSpan(result.Length, result.Length)
        );
        var reference = 1 / (settings.ReferenceTemperatureC + Kelvin);
        var at = 0;
        for (; at <= result.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            (
                new Vector<double>(result[at..])
                + (
                    new Vector<double>(activation[at..])
                    * (
                        new Vector<double>(reference)
                        - (
                            Vector<double>.One
                            / (new Vector<double>(temperature[at..]) + new Vector<double>(Kelvin))
                        )
                    )
                )
            ).CopyTo(result[at..]);
        }

        for (; at < result.Length; at++)
        {
            result[at] += Exponent(activation[at], temperature[at]);
        }

        ArrayPool<double>.Shared.Return(room);
    }

    // result / (1 - m).
    private static void DivideByRest(ReadOnlySpan<double> exponent, Span<double> result)
    {
        var at = 0;
        for (; at <= result.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            (
                new Vector<double>(result[at..])
                / (Vector<double>.One - new Vector<double>(exponent[at..]))
            ).CopyTo(result[at..]);
        }

        for (; at < result.Length; at++)
        {
            result[at] /= 1 - exponent[at];
        }
    }
}
