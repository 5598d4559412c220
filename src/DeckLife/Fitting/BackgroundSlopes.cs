namespace DeckLife.Fitting;

/// <summary>Learns, while a chain warms up, how the cores' (ln Cs, ln D) go with the background: the slopes of the least-squares lines.</summary>
/// <param name="cores">Number of cores.</param>
internal sealed class BackgroundSlopes(int cores)
{
    private readonly double[] _meanSurface = new double[cores];
    private readonly double[] _meanDiffusion = new double[cores];
    private readonly double[] _productSurface = new double[cores];
    private readonly double[] _productDiffusion = new double[cores];
    private double _mean;
    private double _square;
    private long _count;

    /// <summary>Adds a state to the window.</summary>
    /// <param name="state">The state.</param>
    public void Learn(DeckChainState state)
    {
        _count++;
        var before = state.Background - _mean;
        _mean += before / _count;
        _square += before * (state.Background - _mean);
        for (var j = 0; j < cores; j++)
        {
            _meanSurface[j] += (state.LnSurface[j] - _meanSurface[j]) / _count;
            _meanDiffusion[j] += (state.LnDiffusion[j] - _meanDiffusion[j]) / _count;
            _productSurface[j] += before * (state.LnSurface[j] - _meanSurface[j]);
            _productDiffusion[j] += before * (state.LnDiffusion[j] - _meanDiffusion[j]);
        }
    }

    /// <summary>Writes the slopes of the window [(kg/m³)⁻¹] and starts the next.</summary>
    /// <param name="surface">Receives those of ln Cs.</param>
    /// <param name="diffusion">Receives those of ln D.</param>
    public void Take(double[] surface, double[] diffusion)
    {
        if (_count > 20 && _square > 0)
        {
            for (var j = 0; j < cores; j++)
            {
                surface[j] = _productSurface[j] / _square;
                diffusion[j] = _productDiffusion[j] / _square;
            }
        }

        Array.Clear(_meanSurface);
        Array.Clear(_meanDiffusion);
        Array.Clear(_productSurface);
        Array.Clear(_productDiffusion);
        (_mean, _square, _count) = (0, 0, 0);
    }
}
