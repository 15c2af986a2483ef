using System.Text;

namespace MicRegister.Server.Tests;

/// <summary>Runs the program in this process and keeps what it says; other tests' servers, which log beside it, are not heard.</summary>
internal static class CommandLine
{
    private static readonly AsyncLocal<(TextWriter Out, TextWriter Error)?> Own = new();

    // The console belongs to all: once for the process it is turned into one that asks whose words these are.
    static CommandLine()
    {
        var (shown, error) = (Console.Out, Console.Error);
        Console.SetOut(new Whose(() => Own.Value?.Out ?? shown));
        Console.SetError(new Whose(() => Own.Value?.Error ?? error));
    }

    public static async Task<(int Exit, string Out, string Error)> Run(params string[] args)
    {
        using StringWriter output = new(), error = new();
        Own.Value = (TextWriter.Synchronized(output), TextWriter.Synchronized(error));
        try
        {
            var exit = typeof(RegisterServer).Assembly.EntryPoint!.Invoke(null, [args]);
            return (exit is Task<int> task ? await task : (int)exit!, output.ToString(), error.ToString());
        }
        finally
        {
            Own.Value = null;
        }
    }

    private sealed class Whose(Func<TextWriter> writer) : TextWriter
    {
        public override Encoding Encoding => Encoding.UTF8;

        public override void Write(char value) => writer().Write(value);

        public override void Write(string? value) => writer().Write(value);

        public override void Write(char[] buffer, int index, int count) => writer().Write(buffer, index, count);

        public override void WriteLine(string? value) => writer().WriteLine(value);

        public override void Flush() => writer().Flush();
    }
}
