using System.Net;
using System.Net.Sockets;
using System.Threading.Channels;

namespace MicRegister.Browser.Tests;

/// <summary>
/// A long way to a server: what is sent arrives later, in order, and no byte is lost. Its address stands for the server's.
/// </summary>
internal sealed class SlowWire : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _end = new();
    private readonly Uri _server;
    private readonly TimeSpan _oneWay;
    private readonly Task _accepting;

    /// <summary>Opens it.</summary>
    /// <param name="server">Address of the server.</param>
    /// <param name="roundTripMs">How long a question and its answer are on the way, ms.</param>
    public SlowWire(string server, int roundTripMs)
    {
        (_server, _oneWay) = (new(server), TimeSpan.FromMilliseconds(roundTripMs / 2.0));
        _listener.Start();
        Address = $"http://127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}";
        _accepting = Accept();
    }

    public string Address { get; }

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        _listener.Stop();
        await _accepting;
        _end.Dispose();
    }

    private async Task Accept()
    {
        var open = new List<Task>();
        try
        {
            while (true) open.Add(Carry(await _listener.AcceptTcpClientAsync(_end.Token)));
        }
        catch (Exception e) when (e is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            await Task.WhenAll(open);
        }
    }

    private async Task Carry(TcpClient near)
    {
        using (near)
        using (var far = new TcpClient { NoDelay = true })
        {
            near.NoDelay = true;
            try
            {
                await far.ConnectAsync(_server.Host, _server.Port, _end.Token);
                await Task.WhenAll(Along(near, far), Along(far, near));
            }
            catch (Exception e) when (e is OperationCanceledException or SocketException or IOException or InvalidOperationException)
            {
                // One side hung up.
            }
        }
    }

    // One way: what comes in leaves when it has been on the way for long enough, whatever comes in meanwhile.
    private async Task Along(TcpClient from, TcpClient to)
    {
        var road = Channel.CreateUnbounded<(long Due, byte[] Bytes)>();
        var leaving = Leave();
        try
        {
            var buffer = new byte[64 * 1024];
            while (await from.GetStream().ReadAsync(buffer, _end.Token) is var read and > 0)
                road.Writer.TryWrite((Environment.TickCount64 + (long)_oneWay.TotalMilliseconds, buffer[..read]));
        }
        finally
        {
            road.Writer.Complete();
        }
        await leaving;
        to.Client.Shutdown(SocketShutdown.Send);

        async Task Leave()
        {
            await foreach (var (due, bytes) in road.Reader.ReadAllAsync(_end.Token))
            {
                if (due - Environment.TickCount64 is var left and > 0)
                    await Task.Delay(TimeSpan.FromMilliseconds(left), TimeProvider.System, _end.Token);
                await to.GetStream().WriteAsync(bytes, _end.Token);
            }
        }
    }
}
