using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace DeckLife.Data;

/// <summary>Opens files that are files: a pipe that nobody writes to would be waited for without end.</summary>
internal static class OrdinaryFile
{
    // O_RDONLY | O_NONBLOCK of open(2).
    private static int NoWait => OperatingSystem.IsLinux() ? 0x800 : 0x4;

    /// <summary>Opens a file for reading.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">It is a pipe, a socket or a terminal, or the system refuses it.</exception>
    /// <exception cref="UnauthorizedAccessException">Rights are missing, or it is a folder.</exception>
    public static FileStream OpenRead(string path)
    {
        if (!OperatingSystem.IsWindows() && IsStream(path))
        {
            throw new IOException("it is a pipe or a device, not a file.");
        }

        return File.OpenRead(path);
    }

    // What can't be opened here is refused below by the same system, with its reason.
    private static bool IsStream(string path)
    {
        var descriptor = Open(Encoding.UTF8.GetBytes(path + "\0"), NoWait);
        if (descriptor < 0)
        {
            return false;
        }

        using var handle = new SafeFileHandle(descriptor, ownsHandle: true);
        return Seek(handle, 0, 1) < 0;
    }

    [DllImport("libc", EntryPoint = "open", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Open(byte[] path, int flags);

    [DllImport("libc", EntryPoint = "lseek", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern long Seek(SafeFileHandle file, long offset, int from);
}
