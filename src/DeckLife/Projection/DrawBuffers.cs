namespace DeckLife.Projection;

/// <summary>Long arrays that one strategy of one draw needs and the next can have again.</summary>
/// <remarks>Not for use by several threads at once. An array lent may be longer than asked for, and holds what it held.</remarks>
internal sealed class DrawBuffers
{
    private const int Step = 1024;

    private readonly List<double[]> idle = [];
    private readonly List<double[]> lent = [];

    /// <summary>Lends an array.</summary>
    /// <param name="length">Least length.</param>
    public double[] Lend(int length)
    {
        var best = -1;
        for (var i = 0; i < idle.Count; i++)
        {
            if (idle[i].Length >= length && (best < 0 || idle[i].Length < idle[best].Length))
            {
                best = i;
            }
        }

        double[] array;
        if (best < 0)
        {
            // In steps, so that lengths which differ by little serve each other.
            array = new double[(length + Step - 1) / Step * Step];
        }
        else
        {
            array = idle[best];
            idle.RemoveAt(best);
        }

        lent.Add(array);
        return array;
    }

    /// <summary>Takes back all that is lent: nobody reads it any more.</summary>
    public void TakeBack()
    {
        idle.AddRange(lent);
        lent.Clear();
    }
}
