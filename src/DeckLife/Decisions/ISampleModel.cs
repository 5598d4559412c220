namespace DeckLife.Decisions;

/// <summary>Data that could be collected: how they would fall out in each state, and how well each state explains them.</summary>
internal interface ISampleModel
{
    /// <summary>Numbers in one set of data.</summary>
    int Length { get; }

    /// <summary>Makes one set of data as it would fall out in the state of a draw.</summary>
    /// <param name="draw">Place of the draw.</param>
    /// <param name="data">Receives the data.</param>
    void Simulate(int draw, Span<double> data);

    /// <summary>Logarithm of the density of data in the state of a draw, up to a constant that is the same for all draws.</summary>
    /// <param name="data">The data.</param>
    /// <param name="draw">Place of the draw.</param>
    double LogDensity(ReadOnlySpan<double> data, int draw);
}
