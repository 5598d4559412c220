namespace DeckLife.Projection;

/// <summary>Numbers that tell one table of sections from another.</summary>
internal sealed class SectionKey : IEquatable<SectionKey>
{
    private readonly double[] numbers;
    private readonly int hash;

    /// <summary>Takes the numbers.</summary>
    public SectionKey(double[] numbers)
    {
        this.numbers = numbers;
        var code = new HashCode();
        foreach (var number in numbers)
        {
            code.Add(number);
        }

        hash = code.ToHashCode();
    }

    /// <inheritdoc/>
    public bool Equals(SectionKey? other) =>
        other is not null && numbers.AsSpan().SequenceEqual(other.numbers);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as SectionKey);

    /// <inheritdoc/>
    public override int GetHashCode() => hash;
}
