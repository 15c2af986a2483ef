namespace MicRegister.Server.Tests;

/// <summary>Runs the program in this process and keeps what it says. One at a time: the console belongs to all.</summary>
internal static class CommandLine
{
    private static readonly SemaphoreSlim One = new(1);

    public static async Task<(int Exit, string Out, string Error)> Run(params string[] args)
    {
        await One.WaitAsync();
        var (before, errorBefore) = (Console.Out, Console.Error);
        using StringWriter output = new(), error = new();
        try
        {
            Console.SetOut(output);
            Console.SetError(error);
            var exit = typeof(Program).Assembly.EntryPoint!.Invoke(null, [args]);
            return (exit is Task<int> task ? await task : (int)exit!, output.ToString(), error.ToString());
        }
        finally
        {
            Console.SetOut(before);
            Console.SetError(errorBefore);
            One.Release();
        }
    }
}
