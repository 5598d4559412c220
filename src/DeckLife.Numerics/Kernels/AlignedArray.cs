namespace DeckLife.Numerics.Kernels;

/// <summary>Pinned memory that starts on a cache line and only ever grows.</summary>
internal sealed unsafe class AlignedArray
{
    private double[] _values = [];

    /// <summary>The first value; valid until the next growth.</summary>
    public double* Pointer { get; private set; }

    /// <summary>Room for at least a number of values; what was there may be lost.</summary>
    public double* Ensure(int length)
    {
        if (_values.Length < length + 8)
        {
            _values = GC.AllocateArray<double>(length + (length / 2) + 8, pinned: true);
            fixed (double* raw = _values)
            {
                Pointer = (double*)(((nint)raw + 63) & ~(nint)63);
            }
        }

        return Pointer;
    }
}
