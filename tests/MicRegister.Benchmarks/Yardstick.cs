using System.Diagnostics;
using System.Globalization;

namespace MicRegister.Benchmarks;

/// <summary>What a competent person would use instead, or the limit of the machine, run as a process of its own.</summary>
internal static class Yardstick
{
    private static readonly string Source = Path.Combine(AppContext.BaseDirectory, "Yardsticks");

    /// <summary>Compiles a C yardstick for this machine; null without a compiler.</summary>
    public static string? Compile(string name, string work)
    {
        var program = Path.Combine(work, name);
        return Run("gcc", "-O3", "-march=native", "-ffast-math", "-o", program, Path.Combine(Source, name + ".c"), "-lm") is null ? null : program;
    }

    public static string Script(string name) => Path.Combine(Source, name);

    /// <summary>Runs a program and reads the numbers it prints; null where it is not there or fails.</summary>
    public static double[]? Run(string program, params string[] args)
    {
        try
        {
            var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true };
            foreach (var arg in args) start.ArgumentList.Add(arg);
            using var process = Process.Start(start)!;
            var errors = process.StandardError.ReadToEndAsync();
            var output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            if (process.ExitCode != 0)
            {
                Console.Error.WriteLine($"{program} failed: {errors.Result}");
                return null;
            }
            return [.. output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(s => double.Parse(s, CultureInfo.InvariantCulture))];
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Console.Error.WriteLine($"{program} is not installed.");
            return null;
        }
    }
}
