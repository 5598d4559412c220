namespace DeckLife.Fitting;

/// <summary>The mean shares of the slices of a deck's cores, tabulated over ln D for the many values that a chain asks for.</summary>
/// <remarks>
/// Method: the polynomial of fifth degree through six neighbouring nodes, 1/16 apart in ln D (Abramowitz and Stegun 25.2.17). The slices
/// are smooth in ln D whatever their depth, since depth only shifts it. Checked by: DeckSlicesTests.
/// </remarks>
internal sealed class SliceShareTable
{
    // 0.05 to 8100 mm²/yr; a chain that strays further asks for the shares themselves.
    private const double LowestLn = -3;
    private const double HighestLn = 9;
    private const double NodesPerUnit = 16;
    private const int Cells = (int)((HighestLn - LowestLn) * NodesPerUnit);
    private const int Points = 6;

    private readonly double[][] _shares;

    /// <summary>Fills the table.</summary>
    /// <param name="slices">The slices.</param>
    public SliceShareTable(DeckSlices slices)
    {
        _shares = new double[slices.CoreCount][];
        for (var j = 0; j < _shares.Length; j++)
        {
            var count = slices.FirstSlice[j + 1] - slices.FirstSlice[j];
            // Two nodes before the first cell and two after the last: every cell has three nodes on either side.
            var own = new double[(Cells + Points - 1) * count];
            for (var node = 0; node < Cells + Points - 1; node++)
            {
                slices.Shares(
                    j,
                    LowestLn + ((node - 2) / NodesPerUnit),
                    own.AsSpan(node * count, count)
                );
            }

            _shares[j] = own;
        }
    }

    /// <summary>Reads the shares of one core.</summary>
    /// <param name="core">Index of the core.</param>
    /// <param name="lnDiffusion">ln(D / (mm²/yr)).</param>
    /// <param name="share">Receives the shares, one a slice of the core.</param>
    /// <returns>Whether the place lies within the table.</returns>
    public bool TryRead(int core, double lnDiffusion, Span<double> share)
    {
        var place = (lnDiffusion - LowestLn) * NodesPerUnit;
        if (!(place >= 0 && place < Cells))
        {
            return false;
        }

        var cell = (int)place;
        var p = place - cell;
        var (m2, m1, p1, p2, p3) = (p + 2, p + 1, p - 1, p - 2, p - 3);
        var inner = m1 * p * p1 * p2;
        var outer = m2 * p3;
        var w0 = -inner * p3 / 120;
        var w1 = outer * p * p1 * p2 / 24;
        var w2 = -outer * m1 * p1 * p2 / 12;
        var w3 = outer * m1 * p * p2 / 12;
        var w4 = -outer * m1 * p * p1 / 24;
        var w5 = inner * m2 / 120;
        var n = share.Length;
        var rows = _shares[core].AsSpan(cell * n, Points * n);
        for (var i = 0; i < n; i++)
        {
            share[i] =
                (w0 * rows[i])
                + (w1 * rows[n + i])
                + (w2 * rows[(2 * n) + i])
                + (w3 * rows[(3 * n) + i])
                + (w4 * rows[(4 * n) + i])
                + (w5 * rows[(5 * n) + i]);
        }

        return true;
    }
}
