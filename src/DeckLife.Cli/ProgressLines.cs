namespace DeckLife.Cli;

/// <summary>Tells progress in tenths, one line each, in order.</summary>
internal sealed class ProgressLines(TextWriter output) : IProgress<double>
{
    private readonly Lock _gate = new();
    private int _told;

    /// <inheritdoc/>
    public void Report(double value)
    {
        var tenths = (int)Math.Floor(10 * value);
        lock (_gate)
        {
            while (_told < tenths)
            {
                _told++;
                output.WriteLine(FormattableString.Invariant($"projecting: {10 * _told} %"));
            }
        }
    }
}
