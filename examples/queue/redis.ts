/** A Redis server of this example's own, which keeps nothing when it ends. */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Redis } from 'ioredis'

export interface OwnRedis {
  /** Where it listens: a socket in the file system, so that no port is taken. */
  readonly path: string
  close(): Promise<void>
}

export async function startRedis(): Promise<OwnRedis> {
  const folder = mkdtempSync(join(tmpdir(), 'gridreason-redis-'))
  const path = join(folder, 'redis.sock')
  const settings = ['--port', '0', '--unixsocket', path, '--dir', folder, '--save', '', '--appendonly', 'no']
  const server = spawn('redis-server', settings, { stdio: 'ignore' })
  const failed = once(server, 'error').then(([error]) => {
    throw new Error(
      `redis-server cannot be started (${error.message}); install it: apt-get install redis-server`,
    )
  })
  await Promise.race([answers(path), failed])
  return { path, close: () => stop(server, folder) }
}

async function answers(path: string): Promise<void> {
  const client = new Redis({ path, lazyConnect: true, retryStrategy: () => 50, maxRetriesPerRequest: null })
  client.on('error', () => {})
  await client.ping()
  client.disconnect()
}

async function stop(server: ChildProcess, folder: string): Promise<void> {
  const ended = once(server, 'exit')
  server.kill()
  await ended
  rmSync(folder, { recursive: true, force: true })
}
