using System.Diagnostics;

namespace MicRegister.Benchmarks;

internal static class Measure
{
    /// <summary>Median of some runs in seconds, after a second of them to warm up: the compiler optimises what ran for a while.</summary>
    public static double Median(int runs, Action work)
    {
        var warm = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(warm).TotalSeconds < 1) work();
        var took = new double[runs];
        for (var i = 0; i < runs; i++)
        {
            var start = Stopwatch.GetTimestamp();
            work();
            took[i] = Stopwatch.GetElapsedTime(start).TotalSeconds;
        }
        Array.Sort(took);
        return took[runs / 2];
    }

    public static void Line(string what, string figure, string against, string target) => Console.WriteLine($"| {what} | {figure} | {against} | {target} |");

    /// <summary>Greatest working memory of this process so far, in MiB.</summary>
    public static long PeakMiB() => File.Exists("/proc/self/status")
        ? File.ReadLines("/proc/self/status").Where(l => l.StartsWith("VmHWM:", StringComparison.Ordinal)).Select(l => long.Parse(l.Split(':')[1].Replace("kB", "", StringComparison.Ordinal).Trim(), System.Globalization.CultureInfo.InvariantCulture) / 1024).First()
        : Process.GetCurrentProcess().PeakWorkingSet64 >> 20;
}
