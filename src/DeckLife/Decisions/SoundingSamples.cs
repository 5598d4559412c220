using DeckLife.Numerics.Sampling;

namespace DeckLife.Decisions;

/// <summary>Sounding so many independent places: how many are found damaged.</summary>
/// <param name="shares">Share that sounding would find, in each draw.</param>
/// <param name="places">Independent places.</param>
/// <param name="seed">Seed.</param>
internal sealed class SoundingSamples(IReadOnlyList<double> shares, int places, ulong seed)
    : ISampleModel
{
    /// <summary>A share is kept this far from 0 and 1: no survey rules a state out altogether.</summary>
    private const double Edge = 1e-6;

    private readonly (double Found, double Sound)[] logs =
    [
        .. shares.Select(s =>
        {
            var p = Math.Clamp(s, Edge, 1 - Edge);
            return (Math.Log(p), Math.Log(1 - p));
        }),
    ];

    /// <inheritdoc/>
    public int Length => 1;

    /// <inheritdoc/>
    public void Simulate(int draw, Span<double> data) => data[0] = Found(draw);

    /// <summary>Places found damaged in one draw.</summary>
    public int Found(int draw)
    {
        var u = new double[places];
        new RandomStream(seed, "sounding again", (ulong)draw).FillUniform(u);
        var share = shares[draw];
        return u.Count(x => x < share);
    }

    /// <inheritdoc/>
    public double LogDensity(ReadOnlySpan<double> data, int draw) =>
        (data[0] * logs[draw].Found) + ((places - data[0]) * logs[draw].Sound);
}
